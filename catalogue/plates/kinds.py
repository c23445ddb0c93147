"""What a workroom holds of plates, their pieces, readings and seams."""

from collections.abc import Mapping
from typing import Any

from django.db.models import Q

from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.workroom.kinds import Kind, register


def _same_seam(held: Mapping[str, Any]) -> Q:
    return Q(**{name: held[name] for name in ("piece_a_id", "edge_a", "piece_b_id", "edge_b")})


register(
    Kind(model=Plate, part_of="reference"),
    Kind(model=Fastening, part_of="plate", once="line"),
    Kind(model=Piece, part_of="plate"),
    Kind(model=Reading, part_of="piece", once="line"),
    Kind(model=Seam, part_of="plate", alike=_same_seam),
)
