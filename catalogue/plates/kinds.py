"""What a workroom holds of plates, their pieces, readings and seams."""

from collections.abc import Iterator, Mapping
from operator import attrgetter
from typing import Any

from django.db.models import Q, QuerySet

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.scale import read_ratio
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.models import User, Workroom
from catalogue.workroom.reader.row_values import Broken, RowValues
from catalogue.workroom.spreadsheet import Spreadsheet, length_columns
from catalogue.workroom.uses import uses_of_reference

MOST_TIMES_CUT = 60


def _same_seam(held: Mapping[str, Any]) -> Q:
    return Q(**{name: held[name] for name in ("piece_a_id", "edge_a", "piece_b_id", "edge_b")})


def _plate(told: RowValues) -> Iterator[Broken]:
    if told["scale_kind"] == Plate.ScaleKind.RATIO:
        try:
            read_ratio(told["ratio"] or "")
        except NotUnderstood as fault:
            yield "ratio", fault.sentence
    elif told.is_said("scale_kind") and told["scale_kind"] != Plate.ScaleKind.FIGURES:
        yield from told.more_than_nothing("page_length", "real", because="the scale is one known length")
    if told["allowance"] == Plate.AllowanceKind.INCLUDED:
        yield from told.more_than_nothing("allowance_length", because="the drawing includes it")
    yield from told.more_than_nothing("rule", because="it is what the readings were taken with")
    if told.um("across_page") == 0:
        yield "across_page", "This is nothing: leave it out if both ways are the same."
    if told["kind"] == Plate.Kind.DRAFT:
        yield from _draft(told)


def _draft(told: RowValues) -> Iterator[Broken]:
    yield from told.more_than_nothing("drawn_for", because="a proportional draft is in parts of it")
    if told["drawn_for_line"] == "":
        yield "drawn_for_line", "A proportional draft says which measure its figures are parts of."
    elif told["drawn_for_half"] and told["drawn_for_line"] and LINES[told["drawn_for_line"]].kind == "length":
        yield "drawn_for_half", "Only a girth is halved."


def _piece(told: RowValues) -> Iterator[Broken]:
    if told["cut"] is not None and not 1 <= told["cut"] <= MOST_TIMES_CUT:
        yield "cut", f"A piece is cut from once to {MOST_TIMES_CUT} times."


def _reading(told: RowValues) -> Iterator[Broken]:
    yield from told.more_than_nothing("reading", because="a piece that is not there has no reading")
    taken, read = told.um("take_up"), told.um("reading")
    if taken is not None and read is not None and taken >= read:
        yield "take_up", "Darts, pleats and tucks take up less than the whole reading."
    if (told["crossed_ends"] or 0) > 2:
        yield "crossed_ends", "A length has two ends."


def _by_plate(workroom: Workroom) -> QuerySet:
    rows = Reading.objects.of_workroom(workroom)
    rows = rows.select_related("piece__plate__reference", "piece__plate__source")
    return rows.order_by("piece__plate__reference__name", "piece__plate", "piece__order", "piece", "pk")


def _in_parts(row: Reading) -> str:
    if not row.piece.plate.is_draft:
        return ""
    return "plain" if row.is_plain else "in parts"


READING_COLUMNS = {
    "garment key": lambda row: str(row.piece.plate.reference.key),
    "garment": attrgetter("piece.plate.reference.name"),
    "plate": lambda row: str(row.piece.plate),
    "source": lambda row: str(row.piece.plate.source or ""),
    "page": attrgetter("piece.plate.page"),
    "scale": attrgetter("piece.plate.scale_in_words"),
    "draft for": lambda row: row.piece.plate.drawn_for_in_words if row.piece.plate.is_draft else "",
    "seam allowance": attrgetter("piece.plate.allowance"),
    "piece": attrgetter("piece.name"),
    "times cut": attrgetter("piece.cut"),
    "drawn to a fold": lambda row: "yes" if row.piece.on_fold else "no",
    "cloth": attrgetter("piece.cloth"),
    "level or length": attrgetter("line"),
    "girth or length": lambda row: LINES[row.line].kind,
    **length_columns("reading", attrgetter("reading")),
    **length_columns("taken up", attrgetter("take_up")),
    "ends crossed": attrgetter("crossed_ends"),
    "in parts or plain": _in_parts,
}


register(
    Kind(model=Plate, part_of="reference", rule=_plate),
    Kind(model=Fastening, part_of="plate", once="line"),
    Kind(model=Piece, part_of="plate", rule=_piece),
    Kind(
        model=Reading,
        part_of="piece",
        once="line",
        rule=_reading,
        spreadsheet=Spreadsheet(name="readings", rows=_by_plate, columns=READING_COLUMNS),
    ),
    Kind(model=Seam, part_of="plate", alike=_same_seam),
)


def _compared_with(plate: Plate, user: User) -> Iterator[Notice]:
    if used := uses_of_reference(plate.reference, user):
        sentence = (
            "Garments that are compared with it lose their plate; "
            "comparisons already made keep their figures:"
        )
        yield Notice(sentence=sentence, rows=used, is_care=True)


register_deletions(
    Deletion(model=Plate, way=lambda plate: [plate.reference], has_page=True, tells=_compared_with),
    Deletion(
        model=Piece, name="“{row}” from the plate", way=lambda piece: [piece.plate.reference, piece.plate]
    ),
)
