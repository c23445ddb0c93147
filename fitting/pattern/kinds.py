"""What a workroom holds of pattern work that was kept."""

from typing import Any

from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept
from fitting.pattern.models import WorkNote


def _read_inputs(given: Any) -> None:
    for typed in given.values():
        typed.casefold()


def _read_results(given: Any) -> None:
    from catalogue.lengths.showing import Writing
    from catalogue.workroom.reader.codec import from_json
    from fitting.pattern.loading.sheet_answer import SheetAnswer, written
    from fitting.pattern.showing.drawing import draw_work

    worked, writing = from_json(SheetAnswer, given), Writing(system="in")
    for sums in (*(line.parts for line in worked.lines), *worked.flags):
        written(sums, writing)
    for grid in worked.grids:
        [written(cell, writing) for row in grid.rows for cell in row]
    for drawing in worked.drawings:
        draw_work(drawing, writing, name="tried")


register(
    Kind(
        model=WorkNote,
        part_of="garment",
        of_person=OfPerson(by="wearer"),
        checks={"inputs": as_kept(_read_inputs), "results": as_kept(_read_results)},
    )
)
