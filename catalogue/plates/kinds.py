"""What an archive says of plates, their pieces, readings and seams."""

from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.references.kinds import REFERENCE
from catalogue.workroom.kinds import Kind

FASTENING = Kind(model=Fastening, columns=("line", "overlap_um", "gap_um"))
READING = Kind(
    model=Reading,
    columns=("line", "reading_um", "take_up_um", "crossed_ends", "is_plain", "doubt_um"),
)
PIECE = Kind(
    model=Piece,
    columns=("order", "name", "cut", "on_fold", "edges", "cloth", "grain", "notes"),
    parts={"readings": READING},
    order=("readings", "traced_readings"),
)
SEAM = Kind(
    model=Seam,
    columns=("edge_a", "edge_b", "length_a_um", "length_b_um", "how", "evidence", "is_eased"),
    points_to={"piece_a": "pieces", "piece_b": "pieces"},
)
PLATE = Kind(
    model=Plate,
    columns=("title", "page", "kind", "drawn_for_line", "drawn_for_half", "drawn_for_um",
             "scale_kind", "ratio", "page_um", "real_um", "across_page_um", "read_from",
             "allowance", "allowance_um", "rule_um", "drawing_um", "is_half", "notes"),
    points_to={"source": "sources", "picture": "photos"},
    parts={"fastenings": FASTENING, "pieces": PIECE, "seams": SEAM},
    order=("fastenings", "pieces", "seams", "traced_levels"),
)  # fmt: skip

REFERENCE.add_part("plates", PLATE)
