"""What a workroom holds of comparisons and the routes that were chosen."""

from datetime import date
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept
from fitting.comparing.models import Comparison, RouteChoice


def _read_inputs(given: Any) -> None:
    """A case that can be assessed, and where its measures came from."""
    from catalogue.lengths.showing import Writing
    from fitting.comparing.exchange.case_file import case_from_json
    from fitting.comparing.showing.explanation import measure_sum

    case_from_json(given["case"])
    if measured := given["measures"]:
        date.fromisoformat(measured["taken_on"])
        for line, origin in measured["lines"].items():
            measure_sum(origin, Writing(system="in")), LINES[line]


def _read_results(given: Any) -> None:
    from fitting.comparing.exchange.answer import answer_from_json

    for line in answer_from_json(given).lines:
        LINES[line]


register(
    Kind(
        model=Comparison,
        part_of="garment",
        of_person=OfPerson(by="wearer"),
        checks={"inputs": as_kept(_read_inputs), "results": as_kept(_read_results)},
    ),
    Kind(model=RouteChoice, part_of="garment"),
)
