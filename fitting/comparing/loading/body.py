"""Which measures of the wearer apply to a garment, and what each girth comes to over what is worn beneath.

The set taken over just those garments is best. Failing one, the set that leaves fewest of them out is built
up by the layers left out. Boned stays that nobody was measured in take in the waist by as much as is stated.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import NO_LENGTH
from fitting.outfits.models.garment import Ease, Garment
from fitting.wearers.calculation.body import Body, BodyMeasure, Layer, expected, over_layers
from fitting.wearers.calculation.staleness import stale_because
from fitting.wearers.loading import taken_of
from fitting.wearers.models import Measures

# Where a garment that names no level of its own is taken to lie.
TRUNK = ("high bust", "bust", "under bust", "waist", "hip")


class How(StrEnum):
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
    def how(self) -> How:
        if self.reduction_mm is not None:
            return How.EXPECTED
        return How.BUILT_UP if self.layers else How.TAKEN


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresUsed:
    """The set in use. `stale` says why it may no longer hold; `not_over`, which stays hide the waist."""

    measures: Measures
    lines: Mapping[str, LineUsed]
    stale: str
    not_over: tuple[Garment, ...] = ()

    @property
    def how(self) -> How:
        hows = {line.how for line in self.lines.values()}
        return next((how for how in (How.EXPECTED, How.BUILT_UP) if how in hows), How.TAKEN)

    @property
    def layers(self) -> tuple[str, ...]:
        """Names of the layers that some girth was built up over."""
        return tuple(dict.fromkeys(layer.name for line in self.lines.values() for layer in line.layers))

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
    if chosen:
        covered = _covered(chosen, garment, beneath)
        suiting = [(chosen, _left(beneath, covered) if covered is not None else [])]
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
        lines=_lines(measures, left),
        stale=stale_because(
            checked_on=max(measures.taken_on, measures.still_good_on or measures.taken_on),
            today=today,
            stale_days=stale_days,
            worn_changed_on={
                layer.name: layer.made_on
                for layer in (*measures.worn.all(), *beneath)
                if layer.made_on and layer not in left
            },
        ),
        not_over=tuple(layer for layer in left if layer.is_boned and layer.reduction is None),
    )


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
            return {layer.pk for layer in beneath[:1] if not layer.is_boned}
        case Measures.State.OVER_STAYS if boned:
            return {layer.pk for layer in beneath[: boned[-1] + 1]}
    return None


def _distance(measures: Measures, left: list[Garment]) -> tuple[int, int, int]:
    """Stays left out count most, then other layers, then age."""
    boned = sum(layer.is_boned for layer in left)
    return boned, len(left), -max(measures.taken_on, measures.still_good_on or measures.taken_on).toordinal()


def _lines(measures: Measures, left: list[Garment]) -> dict[str, LineUsed]:
    used = {line: _line(line, one.measure, left) for line, one in taken_of(measures).items()}
    return {line: one for line, one in used.items() if one is not None}


def _line(line: str, taken: BodyMeasure, left: list[Garment]) -> LineUsed | None:
    """One line over the layers left out; None where stays without a stated reduction would shape it."""
    if LINES[line].kind == "length":
        return LineUsed(taken=taken, measure=taken)
    over = [garment for garment in left if _lies_at(garment, line)]
    boned = [garment for garment in over if garment.is_boned]
    inside, reduction_mm = taken, None
    if boned and line == "waist":
        if any(garment.reduction is None for garment in boned):
            return None
        reduction_mm = sum(garment.reduction.mm for garment in boned)
        inside = expected(taken, reduction_mm=reduction_mm)
    layers = tuple(layer for garment in over if (layer := _layer(garment)).added_mm > 0)
    return LineUsed(
        taken=taken, measure=over_layers(inside, layers), layers=layers, reduction_mm=reduction_mm
    )


def _lies_at(garment: Garment, line: str) -> bool:
    """Whether it lies there: where it names levels of its own, at those; else on the trunk."""
    eases = {ease.line: ease.fit for ease in garment.eases.all()}
    if line in eases:
        return eases[line] != Ease.Fit.NOT_THERE
    pieces = garment.plate.pieces.all() if garment.plate else ()
    read = {reading.line for piece in pieces for reading in piece.readings.all()}
    named = (read | set(eases)) & set(TRUNK)
    return line in (named or TRUNK)


def _layer(garment: Garment) -> Layer:
    return Layer(
        name=garment.name,
        thickness_mm=(garment.thickness or NO_LENGTH).mm,
        layers=garment.layers,
        gather_ratio=garment.gather_ratio,
        is_boned=garment.is_boned,
    )
