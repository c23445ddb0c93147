"""What the tracing of a plate comes to: every figure that counts, in a person's unit."""

from collections.abc import Iterable, Iterator
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import length_for, mm_for
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.tracing import LevelWidth, TracedShape, level_widths
from catalogue.tracing.loading.levels import CutLevel, cut_levels
from catalogue.tracing.loading.outlines import UNITS, faults_of, levels_of, shape_of
from catalogue.tracing.loading.readings import ReadingPair, readings_beside
from catalogue.tracing.models import TracedPiece, TracedReading
from catalogue.workroom.models import User

AREA = "area"


def doubted(plate: Plate, user: User) -> list[str]:
    """What is to be looked at again of the readings of a plate, as far as its tracing knows."""
    return disagreements(plate, user) + _cut_sentences(plate, user)


def disagreements(plate: Plate, user: User) -> list[str]:
    """Where a reading and its tracing say different things, each as a sentence."""
    beside = readings_beside(plate)
    return [_disagreement(one, plate, user) for one in beside if one.disagrees and not one.row.is_used] + [
        f"The {one.label} of the {one.row.piece} stands as it was last traced, and nothing traced gives it"
        " any more: draw its level or its length anew, or type the reading."
        for one in beside
        if one.row.is_used and not one.is_given
    ]


def _cut_sentences(plate: Plate, user: User) -> list[str]:
    """Of each reading that stands by a tracing, how its level may be cut short."""
    used = set(TracedReading.objects.filter(piece__plate=plate, is_used=True).values_list("piece", "line"))
    cuts = cut_levels(plate) if used else []
    return [
        one.cut.sentence(lambda mm: mm_for(mm, user)) for one in cuts if (one.piece.pk, one.row.line) in used
    ]


def _disagreement(one: ReadingPair, plate: Plate, user: User) -> str:
    is_printed = plate.scale_kind == Plate.ScaleKind.FIGURES
    by_hand, traced = length_for(one.hand, user), mm_for(one.traced_mm, user)
    if one.hand_take_up:
        by_hand += f" less {length_for(one.hand_take_up, user)}"
    if one.take_up_mm:
        traced += f" less {mm_for(one.take_up_mm, user)}"
    way = "more" if (one.apart_mm or 0) > 0 else "less"
    look = "the figure may be misread, or misprinted" if is_printed else "read it again on the page"
    return (
        f"The {one.label} of the {one.row.piece} is {'printed' if is_printed else 'typed'} as {by_hand}; its"
        f" tracing, by calibration {one.calibration.number if one.calibration else 0}, gives {traced}:"
        f" {mm_for(abs(one.apart_mm or 0), user)} {way} at full size, {one.times_its_doubt:.0f} times the"
        f" doubt of the two. Look at both: {look}, or a level or a point was traced amiss."
    )


def reckoned(plate: Plate, flat: PixelMap, user: User) -> dict[str, Any]:
    """Of each piece its figures as text and exactly (mm; the area mm²), its faults; of seams a sentence."""
    pieces, edges, cuts = [], {}, cut_levels(plate)
    levels = levels_of(plate, flat)
    for traced in TracedPiece.objects.filter(piece__plate=plate).select_related("piece"):
        shape = shape_of(traced, flat)
        faults = faults_of(shape, levels)
        figures = {}
        if len(shape.outline.nodes) > 2:
            edges |= {(traced.piece_id, name): mm for name, mm in shape.edges_mm().items()}
            figures = _of_shape(shape)
        widths = [] if faults else level_widths(shape, levels)
        figures |= _of_levels(widths)
        pieces.append(
            {
                "piece": traced.piece_id,
                "figures": [(name, _text(name, size, user)) for name, size in figures.items()],
                "exact_mm": figures,
                # The page knows no darts in outlines: what it would make of these levels is another thing.
                "over_slits": [f"at the {LINES[one.line].label}" for one in widths if one.is_over_slits],
                "faults": [fault.sentence for fault in faults],
                "cut_short": [_told(one, user) for one in cuts if one.piece.pk == traced.piece_id],
            }
        )
    return {"pieces": pieces, "seams": list(_seam_sentences(plate, edges, user))}


def _of_levels(widths: Iterable[LevelWidth]) -> dict[str, float]:
    figures = {}
    for width in widths:
        figures[f"at the {LINES[width.line].label}"] = width.width_mm
        if width.take_up_mm:
            figures[f"taken up at the {LINES[width.line].label}"] = width.take_up_mm
    return figures


def _told(level: CutLevel, user: User) -> dict[str, str]:
    sentence = level.cut.sentence(lambda mm: mm_for(mm, user))
    return {"sentence": sentence, "key": level.key if level.cut.moved else ""}


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
