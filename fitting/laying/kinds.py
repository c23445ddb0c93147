"""What a workroom holds of lays."""

from typing import Any

from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept, check_drawing
from catalogue.workroom.work.engine import is_done_already
from fitting.laying.models import Lay


def _read_inputs(given: Any) -> None:
    from fitting.laying.loading.orders import lay_request

    for typed in lay_request(given).form.values():
        typed.casefold()


def _read_results(given: Any) -> None:
    from fitting.laying.showing.finished_lay import finished_widths

    for one in finished_widths(given):
        for system in ("in", "cm"):
            check_drawing(one.drawings[system])


register(
    Kind(
        model=Lay,
        part_of="garment",
        of_person=OfPerson(by="wearer"),
        checks={"inputs": as_kept(_read_inputs), "results": as_kept(_read_results)},
        written=is_done_already,
    )
)
register_deletions(
    Deletion(
        model=Lay,
        name="the {row}",
        way=lambda lay: [lay.garment, ("Pattern work", "garment-work", lay.garment_id)],
        has_page=True,
    ),
)
