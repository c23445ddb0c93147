"""What a workroom holds of plates, their pieces, readings and seams."""

from collections.abc import Iterator, Mapping
from typing import Any

from django.db.models import Q

from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.models import User
from catalogue.workroom.uses import uses_of_reference


def _same_seam(held: Mapping[str, Any]) -> Q:
    return Q(**{name: held[name] for name in ("piece_a_id", "edge_a", "piece_b_id", "edge_b")})


register(
    Kind(model=Plate, part_of="reference"),
    Kind(model=Fastening, part_of="plate", once="line"),
    Kind(model=Piece, part_of="plate"),
    Kind(model=Reading, part_of="piece", once="line"),
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
