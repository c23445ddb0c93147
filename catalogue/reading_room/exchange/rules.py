"""What no column can say by itself: a plate has a scale, a reading is more than what darts take up."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from django.db.models import Model

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.scale import read_ratio
from catalogue.plates.models.piece import Piece, Reading
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.sources.calculation.dates import read_date
from catalogue.tracing.calculation.calibration import MOST_PIXELS
from catalogue.tracing.calculation.geometry import leads_somewhere
from catalogue.tracing.models import Calibration

MOST_TIMES_CUT = 60
Broken = tuple[str, str]


class RowValues:
    """What a row of an archive says, column by column; None of a column that was faulty."""

    def __init__(self, said: dict[str, Any]) -> None:
        self._said = said

    def __getitem__(self, name: str) -> Any:
        return self._said.get(name)

    def um(self, name: str) -> int | None:
        length = TypedLength.of(self._said.get(name), signed=True)
        return length and length.um

    def is_said(self, name: str) -> bool:
        return name in self._said


def _garment(told: RowValues) -> Iterator[Broken]:
    if told["date_edtf"]:
        try:
            read_date(told["date_edtf"])
        except NotUnderstood as fault:
            yield "date_edtf", fault.sentence


def _plate(told: RowValues) -> Iterator[Broken]:
    if told["scale_kind"] == Plate.ScaleKind.RATIO:
        try:
            read_ratio(told["ratio"] or "")
        except NotUnderstood as fault:
            yield "ratio", fault.sentence
    elif told.is_said("scale_kind") and told["scale_kind"] != Plate.ScaleKind.FIGURES:
        yield from _more_than_nothing(told, "page_length", "real", because="the scale is one known length")
    if told["allowance"] == Plate.AllowanceKind.INCLUDED:
        yield from _more_than_nothing(told, "allowance_length", because="the drawing includes it")
    yield from _more_than_nothing(told, "rule", because="it is what the readings were taken with")
    if told.um("across_page") == 0:
        yield "across_page", "Is nothing: leave it out if both ways are the same."
    if told["kind"] == Plate.Kind.DRAFT:
        yield from _draft(told)
    yield from _traced(told)


def _draft(told: RowValues) -> Iterator[Broken]:
    yield from _more_than_nothing(told, "drawn_for", because="a proportional draft is in parts of it")
    if told["drawn_for_line"] == "":
        yield "drawn_for_line", "A proportional draft says which measure its figures are parts of."
    elif told["drawn_for_half"] and told["drawn_for_line"] and LINES[told["drawn_for_line"]].kind == "length":
        yield "drawn_for_half", "Only a girth is halved."


def _traced(told: RowValues) -> Iterator[Broken]:
    """Every point that was traced lies on the scan, and every calibration leads it to some place."""
    scan, levels = told["scan"], told["traced_levels"] or []
    outlines = [piece["traced"] for piece in told["pieces"] or [] if piece.get("traced")]
    if scan is None:
        if told.is_said("scan") and (outlines or levels):
            yield "scan", "Pieces or levels of this plate are traced, and it has no scan."
        return
    points = [(node["x"], node["y"]) for one in outlines for node in one.get("nodes", ())]
    points += [point for one in outlines for mark in one.get("marks", ()) for point in mark["points"]]
    points += [point for level in levels for point in level.get("points", ())]
    for number, calibration in enumerate(scan.get("calibrations", ())):
        if "matrix" in calibration and not leads_somewhere(calibration["matrix"], points):
            yield f"scan.calibrations[{number}].matrix", "Leads some of what was traced to no place at all."


def _calibration(told: RowValues) -> Iterator[Broken]:
    for name in ("number", "width", "height", "mm_per_px"):
        if told[name] is not None and told[name] <= 0:
            yield name, "Must be more than nothing."
    for name in ("relative_doubt", "worst_doubt", "residual_px"):
        if told[name] is not None and told[name] < 0:
            yield name, "Must not be less than nothing."
    if (told["width"] or 0) * (told["height"] or 0) > 1.01 * MOST_PIXELS:
        yield "width", f"A flattened picture has up to {MOST_PIXELS // 1_000_000} million pixels."


def _piece(told: RowValues) -> Iterator[Broken]:
    if told["cut"] is not None and not 1 <= told["cut"] <= MOST_TIMES_CUT:
        yield "cut", f"A piece is cut from once to {MOST_TIMES_CUT} times."


def _reading(told: RowValues) -> Iterator[Broken]:
    yield from _more_than_nothing(told, "reading", because="a piece that is not there has no reading")
    taken, read = told.um("take_up"), told.um("reading")
    if taken is not None and read is not None and taken >= read:
        yield "take_up", "Darts, pleats and tucks take up less than the whole reading."
    if (told["crossed_ends"] or 0) > 2:
        yield "crossed_ends", "A length has two ends."


def _published(told: RowValues) -> Iterator[Broken]:
    yield from _more_than_nothing(told, "value", because="it was measured")


def _question(told: RowValues) -> Iterator[Broken]:
    if told["answer"] and told["answered_on"] is None:
        yield "answered_on", "It is answered: say on which day."


def _relation(told: RowValues) -> Iterator[Broken]:
    if told["reference"] is not None and told["reference"] == told["other"]:
        yield "other", "A garment is not related to itself."


def _more_than_nothing(told: RowValues, *names: str, because: str) -> Iterator[Broken]:
    for name in names:
        if told.is_said(name) and not told.um(name):
            yield name, f"Must be more than nothing: {because}."


RULES: dict[type[Model], Callable[[RowValues], Iterable[Broken]]] = {
    ReferenceGarment: _garment,
    Plate: _plate,
    Calibration: _calibration,
    Piece: _piece,
    Reading: _reading,
    PublishedMeasure: _published,
    Question: _question,
    Relation: _relation,
}
