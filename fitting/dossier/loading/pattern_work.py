"""What was kept of a garment's pattern work, and the lays of its cloths, as a dossier prints them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import Prefetch, prefetch_related_objects

from catalogue.lengths.calculation.lengths import System
from catalogue.tracing.showing.figure import figure_of
from catalogue.workroom.reader.codec import from_json
from fitting.dossier.loading.plate_pages import PlateDrawing, on_paper
from fitting.laying.models import Lay
from fitting.laying.showing.finished_lay import LaidWidth, how_laid, widths_laid
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.loading.working import working_pattern
from fitting.pattern.models import WorkingVersion, WorkNote
from fitting.pattern.showing.pattern_outlines import outlines_of_pattern

# All that is read of a garment here, but the pieces of its newest version.
KEPT = (
    "work_notes",
    "lays",
    Prefetch("pattern_versions", queryset=WorkingVersion.objects.for_history()),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedSheet:
    note: WorkNote
    worked: SheetAnswer


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedLay:
    lay: Lay
    widths: tuple[LaidWidth, ...]
    how_laid: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedVersions:
    """The pieces of the newest version to scale, and what was done to come to it, the first version first."""

    newest: WorkingVersion
    drawn: PlateDrawing
    versions: tuple[WorkingVersion, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentWork:
    """A garment that has any: its newest sheet of each kind, its newest lay of each cloth, its pattern."""

    garment: Garment
    sheets: tuple[PrintedSheet, ...]
    lays: tuple[PrintedLay, ...]
    pattern: PrintedVersions | None = None


def pattern_work(garments: Sequence[Garment], system: System) -> tuple[GarmentWork, ...]:
    prefetch_related_objects(list(garments), *KEPT)
    return tuple(
        GarmentWork(
            garment=garment,
            sheets=_sheets(garment.work_notes.all()),
            lays=_lays(garment, system),
            pattern=_pattern(garment, system),
        )
        for garment in garments
        if garment.work_notes.all() or garment.lays.all() or garment.pattern_versions.all()
    )


def _pattern(garment: Garment, system: System) -> PrintedVersions | None:
    versions = tuple(garment.pattern_versions.all())
    working = working_pattern(garment) if versions else None
    if working is None:
        return None
    figure = figure_of(outlines_of_pattern(working.pattern), system)
    return PrintedVersions(newest=working.version, drawn=on_paper(figure), versions=versions[::-1])


def _sheets(notes: Iterable[WorkNote]) -> tuple[PrintedSheet, ...]:
    newest: dict[str, WorkNote] = {}
    for note in notes:
        newest.setdefault(note.kind, note)
    return tuple(
        PrintedSheet(note=note, worked=from_json(SheetAnswer, note.results)) for note in newest.values()
    )


def _lays(garment: Garment, system: System) -> tuple[PrintedLay, ...]:
    newest: dict[str, Lay] = {}
    for lay in garment.lays.all():
        if lay.results:
            newest.setdefault(lay.cloth, lay)
    return tuple(
        PrintedLay(lay=lay, widths=tuple(widths_laid(lay, system)), how_laid=tuple(how_laid(lay)))
        for lay in newest.values()
    )
