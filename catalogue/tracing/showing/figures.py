"""What the tracing of a plate comes to: every figure that counts, in a person's unit."""

from collections.abc import Iterator
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import mm_for
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import Calibration as Map
from catalogue.tracing.calculation.tracing import TracedShape, level_widths
from catalogue.tracing.loading.outlines import UNITS, faults_of, levels_of, shape_of
from catalogue.tracing.models import TracedPiece
from catalogue.workroom.models import User

AREA = "area"


def reckoned(plate: Plate, flat: Map, user: User) -> dict[str, Any]:
    """Of each piece its figures as text and exactly (mm; the area mm²), its faults; of seams a sentence."""
    pieces, edges = [], {}
    levels = levels_of(plate, flat)
    for traced in TracedPiece.objects.filter(piece__plate=plate).select_related("piece"):
        shape = shape_of(traced, flat)
        faults = faults_of(shape, levels)
        figures = {}
        if len(shape.outline.nodes) > 2:
            edges |= {(traced.piece_id, name): mm for name, mm in shape.edges_mm().items()}
            figures = _of_shape(shape)
        for width in [] if faults else level_widths(shape, levels):
            figures[f"at the {LINES[width.line].label}"] = width.width_mm
            if width.take_up_mm:
                figures[f"taken up at the {LINES[width.line].label}"] = width.take_up_mm
        pieces.append(
            {
                "piece": traced.piece_id,
                "figures": [(name, _text(name, size, user)) for name, size in figures.items()],
                "exact_mm": figures,
                "faults": [fault.sentence for fault in faults],
            }
        )
    return {"pieces": pieces, "seams": list(_seam_sentences(plate, edges, user))}


def _of_shape(shape: TracedShape) -> dict[str, float]:
    lengths = {LINES[line].label: mm for line, mm in shape.lengths_mm().items()}
    return {"all round": shape.outline.perimeter, AREA: shape.outline.area} | shape.edges_mm() | lengths


def _text(name: str, size: float, user: User) -> str:
    if name != AREA:
        return mm_for(size, user)
    unit = UNITS[user.system]
    return f"{size / unit['mm'] ** 2:.1f} {unit['name']}²"


def _seam_sentences(plate: Plate, edges: dict[tuple[int, str], float], user: User) -> Iterator[str]:
    for seam in plate.seams.select_related("piece_a", "piece_b"):
        a, b = edges.get((seam.piece_a_id, seam.edge_a)), edges.get((seam.piece_b_id, seam.edge_b))
        if a is None or b is None:
            continue
        apart = "they match"
        if mm_for(abs(a - b), user) != mm_for(0, user):
            apart = f"the first is {mm_for(abs(a - b), user)} {'longer' if a > b else 'shorter'}"
        one, other = f"{seam.piece_a} {seam.edge_a}", f"{seam.piece_b} {seam.edge_b}"
        yield f"{one} {mm_for(a, user)}, {other} {mm_for(b, user)}: {apart}."
