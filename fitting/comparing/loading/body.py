"""Which measures of the wearer apply to a garment, and what each girth comes to over what is worn beneath.

The set taken over just those garments is best. Failing one, the set that leaves fewest of them out is built
up by the layers left out. Boned stays that nobody was measured in take in the waist by as much as is stated.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from catalogue.lengths.calculation.levels import LINES
from fitting.outfits.loading.layers import (
    band_of,
    is_a_shift,
    layer_at,
    levels_of,
    must_be_taped_over,
)
from fitting.outfits.models.garment import Garment
from fitting.wearers.calculation.body import Body, BodyMeasure, expected
from fitting.wearers.calculation.layers import Layer, over_layers
from fitting.wearers.calculation.staleness import stale_because
from fitting.wearers.loading import checked, made, taken_of
from fitting.wearers.models import Measures


class MeasureOrigin(StrEnum):
    TAKEN = "taken"
    BUILT_UP = "built up"
    EXPECTED = "expected"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineUsed:
    """One measure as it enters a comparison: as taken, less what stays are to take in, plus layers."""

    taken: BodyMeasure
    measure: BodyMeasure
    layers: tuple[Layer, ...] = ()
    reduction_mm: float | None = None

    @property
    def how(self) -> MeasureOrigin:
        if self.reduction_mm is not None:
            return MeasureOrigin.EXPECTED
        return MeasureOrigin.BUILT_UP if self.layers else MeasureOrigin.TAKEN

    @property
    def beneath(self) -> BodyMeasure:
        """What a tape would read over all that is worn beneath, without the garment's own cloth."""
        own_mm = sum(layer.added_mm for layer in self.layers if layer.is_own)
        return replace(self.measure, mm=self.measure.mm - own_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresUsed:
    """The set in use. `stale` says why it may no longer hold, `unsuited` why it does not suit the garment.

    Of what is worn beneath, and was not when it was taken: `not_over` are stays that hide the waist,
    `to_tape` hoops that hide what is below it, `unplaced` cloth of which nothing tells where it lies.
    """

    measures: Measures
    lines: Mapping[str, LineUsed]
    stale: str
    not_over: tuple[Garment, ...] = ()
    to_tape: tuple[Garment, ...] = ()
    unplaced: tuple[Garment, ...] = ()
    unsuited: str = ""

    @property
    def how(self) -> MeasureOrigin:
        hows = {line.how for line in self.lines.values()}
        return next(
            (how for how in (MeasureOrigin.EXPECTED, MeasureOrigin.BUILT_UP) if how in hows),
            MeasureOrigin.TAKEN,
        )

    @property
    def layers(self) -> tuple[str, ...]:
        """Names of the layers that some girth was built up over."""
        return tuple(dict.fromkeys(layer.name for layer in self._layers() if not layer.is_own))

    @property
    def tied(self) -> tuple[str, ...]:
        """Layers tied with tapes, which may press in by as much as their cloth adds."""
        return tuple(
            dict.fromkeys(layer.name for layer in self._layers() if layer.is_tied and not layer.is_own)
        )

    def _layers(self) -> Iterator[Layer]:
        return (layer for line in self.lines.values() for layer in line.layers)

    def body(self) -> Body:
        """The wearer as a case reads it."""
        state = self.measures.get_state_display()
        if self.layers:
            state = f"{state}, built up over {', '.join(self.layers)}"
        measured = {line: used.measure for line, used in self.lines.items()}
        return Body(
            state=state,
            girths={line: one for line, one in measured.items() if LINES[line].kind == "girth"},
            lengths={line: one for line, one in measured.items() if LINES[line].kind == "length"},
            stale=self.stale,
        )


def measures_used(
    garment: Garment, *, beneath: list[Garment], sets: Iterable[Measures], today: date, stale_days: int
) -> MeasuresUsed | None:
    """Return the measures that apply; None where the wearer has none that could.

    `beneath`: the garments worn under it, from the skin outward. `sets`: with their takes and what was worn.
    """
    chosen = next((one for one in sets if one.pk == garment.measures_id), None)
    unsuited = ""
    if chosen:
        covered = _covered(chosen, garment, beneath)
        suiting = [(chosen, _left(beneath, covered) if covered is not None else [])]
        unsuited = _why_unsuited(chosen, garment) if covered is None else ""
    else:
        suiting = [
            (one, _left(beneath, covered))
            for one in sets
            if (covered := _covered(one, garment, beneath)) is not None
        ]
    if not suiting:
        return None
    measures, left = min(suiting, key=lambda found: _distance(*found))
    return MeasuresUsed(
        measures=measures,
        lines=_lines(measures, left, garment),
        stale=stale_because(
            checked=checked(measures),
            today=today,
            stale_days=stale_days,
            worn_made=made([layer for layer in (*measures.worn.all(), *beneath) if layer not in left]),
        ),
        not_over=tuple(layer for layer in left if layer.is_boned and layer.reduction is None),
        to_tape=tuple(layer for layer in left if must_be_taped_over(layer)),
        unplaced=tuple(layer for layer in left if layer.thickness and not levels_of(layer)),
        unsuited=unsuited,
    )


def _why_unsuited(measures: Measures, garment: Garment) -> str:
    """Said of a set that somebody chose by hand."""
    if any(layer.outfit_id == garment.outfit_id for layer in measures.worn.all()):
        return f"They were taken over {garment} itself, or over what is worn on top of it."
    if measures.state == Measures.State.OVER_STAYS:
        return f"They were taken over stays, and no stays are worn beneath {garment}."
    return f"They were taken over other layers than those worn beneath {garment}."


def _left(beneath: list[Garment], covered: set[int]) -> list[Garment]:
    return [layer for layer in beneath if layer.pk not in covered]


def _covered(measures: Measures, garment: Garment, beneath: list[Garment]) -> set[int] | None:
    """Keys of the garments beneath that were worn when it was taken; None where it does not suit."""
    worn = {layer.pk for layer in measures.worn.all()}
    if worn and worn <= {layer.pk for layer in beneath}:
        return worn
    if any(layer.outfit_id == garment.outfit_id for layer in measures.worn.all()):
        return None  # taken over the garment itself, or over what is worn on top of it
    boned = [at for at, layer in enumerate(beneath) if layer.is_boned]
    match measures.state:
        case Measures.State.UNDRESSED:
            return set()
        case Measures.State.OVER_SHIFT:
            return {layer.pk for layer in beneath if is_a_shift(layer)}
        case Measures.State.OVER_STAYS if boned:
            return {layer.pk for layer in beneath[: boned[-1] + 1]}
    return None


def _distance(measures: Measures, left: list[Garment]) -> tuple[int, int, int]:
    """Stays left out count most, then other layers, then age."""
    boned = sum(layer.is_boned for layer in left)
    return boned, len(left), -max(measures.taken_on, measures.still_good_on or measures.taken_on).toordinal()


def _lines(measures: Measures, left: list[Garment], own: Garment) -> dict[str, LineUsed]:
    taken = {line: one.measure for line, one in taken_of(measures).items()}
    levels = {garment: levels_of(garment) for garment in (*left, own)}
    used = {line: _line(line, taken, levels, own) for line in taken}
    return {line: one for line, one in used.items() if one is not None}


def _line(
    line: str,
    taken: Mapping[str, BodyMeasure],
    levels: Mapping[Garment, Collection[str]],
    own: Garment,
) -> LineUsed | None:
    """One line over the layers left out; None where something beneath shapes it by what nobody stated.

    `levels`: those that each layer left out covers, and the garment itself.
    """
    measure = taken[line]
    if LINES[line].kind == "length":
        return LineUsed(taken=measure, measure=measure)
    over = [garment for garment, covers in levels.items() if garment != own and line in covers]
    if any(must_be_taped_over(garment) and line != band_of(garment) for garment in over):
        return None
    boned = [garment for garment in over if garment.is_boned]
    inside, reduction_mm = measure, None
    if boned and line == "waist":
        if any(garment.reduction is None for garment in boned):
            return None
        reduction_mm = sum(garment.reduction.mm for garment in boned)
        inside = expected(measure, reduction_mm=reduction_mm)
    beneath = [layer_at(garment, line, widening=_widening(garment, line, taken)) for garment in over]
    layers = tuple(layer for layer in beneath if layer.added_mm > 0)
    if layers and not own.is_boned and line in levels[own]:
        its_own = layer_at(own, line, widening=_widening(own, line, taken), is_own=True)
        layers += (its_own,) if its_own.added_mm > 0 else ()
    return LineUsed(
        taken=measure, measure=over_layers(inside, layers), layers=layers, reduction_mm=reduction_mm
    )


def _widening(garment: Garment, line: str, taken: Mapping[str, BodyMeasure]) -> float:
    """How much wider the body is there than where the garment's band sits; 1 where that is not known."""
    at_band = taken.get(band_of(garment))
    return max(1.0, taken[line].mm / at_band.mm) if at_band else 1.0
