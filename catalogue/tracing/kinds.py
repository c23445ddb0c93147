"""What an archive says of scans, calibrations and what was traced."""

from catalogue.plates.kinds import PIECE, PLATE
from catalogue.tracing.calculation.geometry import (
    check_given,
    check_grid,
    check_level,
    check_marks,
    check_matrix,
    check_nodes,
)
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel, TracedPiece, TracedReading
from catalogue.workroom.kinds import Kind

TRACED_READING = Kind(
    model=TracedReading,
    columns=("line", "reading_um", "take_up_um", "doubt_um", "is_used", "hand_um", "hand_take_up_um"),
)
TRACED_PIECE = Kind(
    model=TracedPiece, columns=("nodes", "marks"), geometry={"nodes": check_nodes, "marks": check_marks}
)
TRACED_LEVEL = Kind(model=TracedLevel, columns=("line", "points"), geometry={"points": check_level})
CALIBRATION = Kind(
    model=Calibration,
    columns=("number", "way", "given", "matrix", "relative_doubt", "worst_doubt", "residual_px", "left_mm",
             "top_mm", "mm_per_px", "width", "height", "made_at"),
    geometry={"given": check_given, "matrix": check_matrix},
)  # fmt: skip
SCAN = Kind(
    model=PlateScan,
    columns=("is_photograph", "grid"),
    geometry={"grid": check_grid},
    parts={"calibrations": CALIBRATION},
    files="scans/",
)

PIECE.add_part("traced_readings", TRACED_READING)
PIECE.only["traced"] = TRACED_PIECE
PLATE.add_part("traced_levels", TRACED_LEVEL)
PLATE.only["scan"] = SCAN
