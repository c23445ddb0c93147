"""What was kept of a garment's pattern work, and the lays of its cloths, as a dossier prints them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import prefetch_related_objects

from catalogue.lengths.calculation.lengths import System
from catalogue.workroom.reader.codec import from_json
from fitting.laying.models import Lay
from fitting.laying.showing.finished_lay import LaidWidth, how_laid, widths_laid
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.models import WorkNote

# All that is read of a garment here.
KEPT = ("work_notes", "lays")


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
class GarmentWork:
    """A garment that has any: its newest sheet of each kind, its newest lay of each cloth."""

    garment: Garment
    sheets: tuple[PrintedSheet, ...]
    lays: tuple[PrintedLay, ...]


def pattern_work(garments: Sequence[Garment], system: System) -> tuple[GarmentWork, ...]:
    prefetch_related_objects(list(garments), *KEPT)
    return tuple(
        GarmentWork(garment=garment, sheets=_sheets(garment.work_notes.all()), lays=_lays(garment, system))
        for garment in garments
        if garment.work_notes.all() or garment.lays.all()
    )


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
