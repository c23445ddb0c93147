"""A garment's alterations with their ticks, the inlay left for them, and which pattern is the last."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.lengths.models import NO_LENGTH
from catalogue.lengths.showing import Writing, length_for
from fitting.fittings.calculation import InlayLeft, inlay_left
from fitting.fittings.models.alteration import Alteration, AlterationPart, AlterationQuerySet, Inlay
from fitting.fittings.models.session import Fitting, Observation
from fitting.outfits.models.garment import Garment
from fitting.pattern.loading.version import PatternVersion, version_after

PARTS = tuple(AlterationPart.Place.values)
CUT_CLOTH = (AlterationPart.Place.OUTER, AlterationPart.Place.LINING)
# By which step of the working pattern each is made on paper; the others by whichever fits.
STEPS = {
    Alteration.Deed.LET_OUT: "add",
    Alteration.Deed.TAKE_IN: "add",
    Alteration.Deed.LENGTHEN: "lengthen",
    Alteration.Deed.SHORTEN: "lengthen",
}
_SIGN = {Alteration.Deed.LET_OUT: 1, Alteration.Deed.TAKE_IN: -1}


@dataclass(frozen=True, slots=True, kw_only=True)
class AlterationRow:
    """`ticks`: for each layer in order, None where it need not reach it. `inlay_mm`: what is left."""

    alteration: Alteration
    ticks: tuple[AlterationPart | None, ...]
    inlay_mm: float | None
    is_enough: bool

    @property
    def reaches_paper(self) -> bool:
        return any(tick and tick.part == AlterationPart.Place.PAPER for tick in self.ticks)

    @property
    def step(self) -> str:
        return STEPS.get(self.alteration.what, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class InlayRow:
    inlay: Inlay
    left: InlayLeft


@dataclass(frozen=True, slots=True, kw_only=True)
class AlterationTable:
    open: tuple[AlterationRow, ...]
    confirmed: tuple[Alteration, ...]
    inlays: tuple[InlayRow, ...]
    version: PatternVersion
    parts: tuple[str, ...] = PARTS


def alterations_of(garment: Garment) -> AlterationTable:
    """All of a garment's alterations. Prefetch `alterations__parts` and `inlays` for many garments."""
    rows = list(garment.alterations.all())
    inlays = {
        _edge(inlay.edge): InlayRow(inlay=inlay, left=_left(inlay, rows)) for inlay in garment.inlays.all()
    }
    still_open = [row for row in rows if row.confirmed_in_id is None]
    return AlterationTable(
        open=tuple(_checked(still_open, inlays)),
        confirmed=tuple(row for row in rows if row.confirmed_in_id is not None),
        inlays=tuple(inlays.values()),
        version=version_after(rows),
    )


def what_becomes_of(row: Fitting | Observation) -> dict[str, AlterationQuerySet]:
    """What its deletion does to the alterations made from it: which `stay`, and which `go`."""
    made = Alteration.objects.made_from(row).select_related("garment", "piece")
    stay = made.filter(pk__in=Alteration.objects.kept_without(row))
    return {"stay": stay, "go": made.exclude(pk__in=stay)}


def words_of(row: Alteration, writing: Writing) -> str:
    """An alteration in one line, in the reader's unit."""
    where = f"{row.piece}, {row.edge}" if row.piece else row.edge
    amount = f" {length_for(row.amount, writing)}" if row.amount is not None else ""
    each = f" at each of {row.edges} edges" if amount and row.edges > 1 else ""
    return f"{where}: {row.get_what_display()}{amount}{each}"


def _edge(name: str) -> str:
    return " ".join(name.casefold().split())


def _left(inlay: Inlay, rows: Iterable[Alteration]) -> InlayLeft:
    return inlay_left(
        cut_with_mm=inlay.allowance.mm,
        edges=inlay.edges,
        let_out_mm=sum(
            _SIGN.get(row.what, 0) * _in_all_mm(row)
            for row in rows
            if _edge(row.edge) == _edge(inlay.edge) and _is_in_cloth(row)
        ),
    )


def _in_all_mm(row: Alteration) -> float:
    return (row.amount or NO_LENGTH).mm * row.edges


def _is_in_cloth(row: Alteration) -> bool:
    return any(part.part in CUT_CLOTH and part.done_on for part in row.parts.all())


def _checked(rows: Iterable[Alteration], inlays: Mapping[str, InlayRow]) -> Iterable[AlterationRow]:
    """Each against the inlay that those decided before it leave."""
    asked_mm: dict[str, float] = {}
    for row in rows:
        edge, inlay = _edge(row.edge), inlays.get(_edge(row.edge))
        checks = inlay is not None and row.what == Alteration.Deed.LET_OUT and not _is_in_cloth(row)
        if checks:
            asked_mm[edge] = asked_mm.get(edge, 0.0) + _in_all_mm(row)
        by_part = row.by_part
        yield AlterationRow(
            alteration=row,
            ticks=tuple(by_part.get(part) for part in PARTS),
            inlay_mm=inlay.left.left_mm if checks and inlay else None,
            is_enough=inlay is None or not checks or inlay.left.is_enough_for(asked_mm[edge]),
        )
