"""What is left to do before the newest version of a garment's working pattern is cut."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from django.urls import reverse

from fitting.fittings.models.trial import Trial
from fitting.laying.actions import KINDS
from fitting.laying.loading.orders import lay_request
from fitting.laying.loading.pieces import cloth_of
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternPiece
from fitting.pattern.calculation.working.steps import SEAM_OFF_MM
from fitting.pattern.loading.garment_patterns import joins_of_pattern
from fitting.pattern.loading.working import WorkingPattern, working_pattern
from fitting.pattern.models import CuttingTick

What = CuttingTick.What


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingLine:
    """One thing to be done: where it is done, what is found, and what of it the maker may say.

    `found`: nothing wrong, in an empty tuple. `tick`: what settles it by the maker's word; `is_needed`: it is
    never settled without.
    """

    label: str
    link: str
    found: tuple[str, ...] = ()
    tick: CuttingTick.What | None = None
    is_needed: bool = False
    ticked: CuttingTick | None = None

    @property
    def is_done(self) -> bool:
        return self.ticked is not None or not (self.found or self.is_needed)


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingRow:
    """A piece of the cutting list: how many are cut, and how many of these are mirrored."""

    piece: PatternPiece
    mirrored: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BeforeCutting:
    """`working` is None where no pattern was begun: then nothing else is there to look at."""

    working: WorkingPattern | None = None
    lines: tuple[CuttingLine, ...] = ()
    by_cloth: Mapping[str, tuple[CuttingRow, ...]] | None = None

    @property
    def left(self) -> int:
        return sum(not line.is_done for line in self.lines)

    @property
    def is_ready(self) -> bool:
        return self.working is not None and self.left == 0


def before_cutting(garment: Garment) -> BeforeCutting:
    working = working_pattern(garment)
    if working is None:
        return BeforeCutting()
    ticks = {tick.what: tick for tick in working.version.cutting_ticks.select_related("ticked_by")}
    lines = [_line(check, garment, working, ticks) for check in CHECKS]
    by_cloth: dict[str, list[CuttingRow]] = {}
    for piece in working.pattern.pieces:
        mirrored = piece.cut // 2 if piece.mirrored else 0
        by_cloth.setdefault(cloth_of(piece), []).append(CuttingRow(piece=piece, mirrored=mirrored))
    return BeforeCutting(
        working=working,
        lines=tuple(lines),
        by_cloth={cloth: tuple(rows) for cloth, rows in by_cloth.items()},
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Check:
    """`finds`: what stands in the way, as far as the program can know."""

    label: str
    address: str
    more: tuple[str, ...] = ()
    finds: Callable[[Garment, WorkingPattern], Iterator[str]] | None = None
    tick: CuttingTick.What | None = None


def _line(
    check: _Check, garment: Garment, working: WorkingPattern, ticks: Mapping[str, CuttingTick]
) -> CuttingLine:
    of_outfit = check.address == "material-list"
    return CuttingLine(
        label=check.label,
        link=reverse(check.address, args=[garment.outfit_id if of_outfit else garment.pk, *check.more]),
        found=tuple(check.finds(garment, working)) if check.finds else (),
        tick=check.tick,
        is_needed=check.finds is None,
        ticked=ticks.get(check.tick or ""),
    )


def _toile(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    if not garment.trials.filter(kind=Trial.Kind.TOILE).exists():
        yield "No toile is kept with this garment."
    for alteration in garment.alterations.prefetch_related("parts"):
        paper = alteration.by_part.get("paper")
        if paper and not paper.done_on:
            yield f"Not on paper yet: {alteration}."


def _seams(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    """Each seam within half a millimetre of its ease."""
    pattern = working.pattern
    yield from (
        f"The seam of {seam.words} has lost an edge."
        for seam in pattern.seams
        if pattern.off_mm(seam) is None
    )
    lengths = {
        (piece.name, edge): mm for piece in pattern.pieces for edge, mm in piece.measures.edges.items()
    }
    for join, ease_mm in joins_of_pattern(pattern):
        one, other = (sum(lengths[key] for key in run) for run in (join.one, join.other))
        off_mm = one - other - ease_mm
        if abs(off_mm) > SEAM_OFF_MM:
            (piece, edge), more = join.one[0], "longer" if off_mm > 0 else "shorter"
            yield f"{edge.capitalize()} of {piece} is {abs(off_mm):.1f} mm {more} than its seam asks for."


def _allowances(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    bare = [piece.name for piece in working.pattern.pieces if piece.allowance == Allowance()]
    if bare:
        yield f"None is set for {', '.join(bare)}."


def _inlays(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    if not garment.inlays.exists():
        yield "No seam has an inlay."


def _pairs(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    for piece in working.pattern.pieces:
        if piece.mirrored and piece.cut % 2:
            yield f"{piece.name} is cut {piece.cut} times, so its pairs do not come out even."
        elif piece.cut > 1 and not piece.mirrored:
            yield f"{piece.name} is cut {piece.cut} times, all of one hand."


def _bought(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    rows = list(garment.outfit.materials.filter(garment=garment))
    for cloth in _cloths(working.pattern):
        of_kind = [row for row in rows if row.kind == KINDS[cloth]]
        if not of_kind:
            yield f"No line of the materials is its {cloth} cloth."
        for row in of_kind:
            there_um = (row.on_hand_um or 0) + (row.bought_um or 0)
            if row.needed_um and there_um < row.needed_um:
                yield f"{row}: {row.needed_text} needed, and not all of it is there."


def _lays(garment: Garment, working: WorkingPattern) -> Iterator[str]:
    number = working.version.number
    laid = {
        lay.cloth for lay in garment.lays.exclude(results=[]) if lay_request(lay.inputs).version == number
    }
    for cloth in _cloths(working.pattern):
        if cloth not in laid:
            yield f"Its {cloth} cloth has no lay of version {number}."


def _cloths(pattern: Pattern) -> Sequence[str]:
    return list(dict.fromkeys(map(cloth_of, pattern.pieces)))


CHECKS = (
    _Check(label="Toile settled", address="trial-add", finds=_toile, tick=What.TOILE),
    _Check(label="Seams true", address="work-sheet", more=("seams",), finds=_seams),
    _Check(
        label="Allowances set",
        address="pattern-step",
        more=("allowance",),
        finds=_allowances,
        tick=What.ALLOWANCES,
    ),
    _Check(label="Inlays set", address="inlay-list", finds=_inlays, tick=What.INLAYS),
    _Check(label="Cutting list checked", address="garment-pattern", tick=What.LIST),
    _Check(label="Pairs checked", address="garment-pattern", finds=_pairs, tick=What.PAIRS),
    _Check(label="Nap and right side marked", address="material-list", tick=What.NAP),
    _Check(label="Sheets of this version printed", address="garment-sheets", tick=What.SHEETS),
    _Check(label="Cloth bought", address="material-list", finds=_bought, tick=What.BOUGHT),
    _Check(label="Cloth shrunk", address="material-list", tick=What.SHRUNK),
    _Check(label="Lay made of this version", address="lay-add", finds=_lays),
)
