"""What a workroom holds of pattern work that was kept."""

from typing import Any

from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept
from fitting.pattern.models import CuttingTick, WorkingVersion, WorkNote


def _read_inputs(given: Any) -> None:
    for typed in given.values():
        typed.casefold()


def _read_results(given: Any) -> None:
    from catalogue.lengths.showing import Writing
    from catalogue.workroom.reader.codec import from_json
    from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer, written
    from fitting.pattern.showing.drawing import draw_work

    worked, writing = from_json(SheetAnswer, given), Writing(system="in")
    for sums in (*(line.parts for line in worked.lines), *worked.flags):
        written(sums, writing.length)
    for grid in worked.grids:
        [written(cell, writing.length) for row in grid.rows for cell in row]
    for drawing in worked.drawings:
        draw_work(drawing, writing, name="tried")


def _read_pattern(given: Any) -> None:
    from fitting.pattern.exchange.kept_pattern import pattern_of_kept

    pattern = pattern_of_kept(given)
    for piece in pattern.pieces:
        piece.measures.area_mm2.hex()


def _read_asked(given: Any) -> None:
    dict(given)


def _read_broke(given: Any) -> None:
    for sentence in given:
        sentence.casefold()


def _read_changed(given: Any) -> None:
    for rows in given.values():
        for before, after in rows.values():
            [figure.hex() for figure in (before, after) if figure is not None]


def _read_rests_on(given: Any) -> None:
    for row in given.values():
        row["called"].casefold()
        row["as"].casefold()


register(
    Kind(
        model=WorkingVersion,
        part_of="garment",
        of_person=OfPerson(by="wearer"),
        checks={
            "pattern": as_kept(_read_pattern),
            "asked": as_kept(_read_asked),
            "changed": as_kept(_read_changed),
            "broke": as_kept(_read_broke),
            "rests_on": as_kept(_read_rests_on),
        },
    )
)
register(Kind(model=CuttingTick, part_of="version", once="what"))
register(
    Kind(
        model=WorkNote,
        part_of="garment",
        of_person=OfPerson(by="wearer"),
        checks={"inputs": as_kept(_read_inputs), "results": as_kept(_read_results)},
    )
)
register_deletions(
    Deletion(
        model=WorkNote,
        the="the sheet",
        name="the {row}",
        way=lambda note: [note.garment, ("Pattern work", "garment-work", note.garment_id)],
        has_page=True,
    ),
)
