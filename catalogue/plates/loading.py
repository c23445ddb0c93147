"""Rows of the catalogue as values to reckon with. Rows do not compute, and calculations do not store.

A sleeve cut twice goes once round each arm: an even `cut` is halved here at the levels of limbs. The file
that `assess` reads takes `cut` as it is written.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from catalogue.lengths.calculation.levels import LINES, girths
from catalogue.lengths.models import NO_LENGTH
from catalogue.plates.calculation.agreement import Agreement, SewnEdges, edges_agreement, published_agreement
from catalogue.plates.calculation.draft import Draft
from catalogue.plates.calculation.findings import Findings, findings
from catalogue.plates.calculation.girth import FullSize, Reckoning
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import (
    RELATIVE_DOUBT,
    Scale,
    from_known,
    measured_relative_doubt,
    read_ratio,
)
from catalogue.plates.calculation.seam_order import ListedPiece, ProposedSeam, propose_seams
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Plate

# How far a published measure may be off where its record does not say. Common practice, no source.
PUBLISHED_DOUBT_MM = 25.4 / 4


def plate_values(plate: Plate, *, cloth: str | None = None) -> PlateReadings:
    """Return what was read off the plate, in millimetres, ready for `Reckoning.of`.

    Pieces of one cloth lie beside each other, those of another over them: only those of `cloth` are given,
    of the plate's first cloth unless said. Prefetch `pieces__readings` and `fastenings`.
    """
    chosen = cloth or next(iter(cloths_of(plate)), Piece.ClothRole.OUTER)
    pieces = [piece for piece in plate.pieces.all() if piece.cloth == chosen]
    lengths: dict[str, tuple[PageReading, ...]] = {}
    for piece in pieces:
        for reading in piece.readings.all():
            if LINES[reading.line].kind == "length":
                lengths[reading.line] = (*lengths.get(reading.line, ()), _read_off(reading))
    return PlateReadings(
        scale=_scale_of_traced(plate, pieces),
        pieces=tuple(drawn for piece in pieces for drawn in _drawn(piece)),
        lengths=lengths,
        allowance_mm=_allowance_mm(plate),
        rule_division_mm=plate.rule.mm,
        drawing_doubt_mm=plate.drawing.mm,
        overlap=_fastened(plate, "overlap"),
        lacing_gap=_fastened(plate, "gap"),
        draft=draft_of(plate),
    )


def draft_of(plate: Plate) -> Draft | None:
    """What the figures of a proportional draft are parts of; None of a plate that is none."""
    if not plate.is_draft or not plate.drawn_for_um:
        return None
    return Draft(line=plate.drawn_for_line, is_half=plate.drawn_for_half, drawn_for_mm=plate.drawn_for.mm)


def plate_findings(plate: Plate, *, body_mm: float | None = None) -> dict[str, Findings]:
    """What the plate comes to, for each cloth that it has pieces of. Prefetch as for `plate_values`.

    A proportional draft comes to what it was drawn for or, with `body_mm`, to a body of that measure.
    """
    values = {cloth: plate_values(plate, cloth=cloth) for cloth in cloths_of(plate)}
    if body_mm is not None:
        values = {cloth: one.drafted_for(body_mm) for cloth, one in values.items()}
    return {cloth: findings(one) for cloth, one in values.items()}


def running_halves(plate: Plate, found: dict[str, Findings]) -> dict[int, dict[str, float]]:
    """Half round the garment on the page, in mm, up to and with each piece: by piece, then by level."""
    halves = {
        (cloth, finding.line): iter(finding.halves_on_page_mm)
        for cloth, of_cloth in found.items()
        for finding in of_cloth.girths
    }
    return {
        piece.pk: {
            reading.line: next(halves[piece.cloth, reading.line])
            for reading in piece.readings.all()
            if (piece.cloth, reading.line) in halves
        }
        for piece in plate.pieces.all()
    }


def plate_agreements(plate: Plate, found: dict[str, Findings]) -> list[Agreement]:
    """Whether sewn edges match and published measures agree. Prefetch as `Plate.objects.for_detail_page`.

    While the allowance is not known, girths are held as if none were drawn.
    """
    reckoning = Reckoning.of(plate_values(plate))
    sewn = filter(None, map(_sewn_edges, plate.seams.all()))
    edges = [edges_agreement(reckoning, pair) for pair in sewn]
    by_line: dict[str, FullSize] = {}
    for of_cloth in found.values():
        for finding in (*of_cloth.girths, *of_cloth.lengths):
            by_line.setdefault(finding.line, finding.full_size)
    published = [
        published_agreement(
            by_line[measure.line],
            measure.value.mm,
            # Off by as much either way: a range twice as wide.
            division_mm=2 * ((measure.doubt or NO_LENGTH).mm or PUBLISHED_DOUBT_MM),
        )
        for measure in plate.reference.published_measures.all()
        if measure.line in by_line
    ]
    return [*edges, *published]


def _sewn_edges(seam: Seam) -> SewnEdges | None:
    """None where an edge is not measured yet, is its own other half, or is not meant to match."""
    is_one_edge = (seam.piece_a_id, seam.edge_a) == (seam.piece_b_id, seam.edge_b)
    if is_one_edge or seam.is_eased or seam.length_a is None or seam.length_b is None:
        return None
    return SewnEdges(
        name_a=f"{seam.piece_a}, {seam.edge_a}",
        page_a_mm=seam.length_a.mm,
        name_b=f"{seam.piece_b}, {seam.edge_b}",
        page_b_mm=seam.length_b.mm,
    )


def cloths_of(plate: Plate) -> list[str]:
    """The cloths that the plate has pieces of, the outer first: each is a garment's girth of its own."""
    on_plate = {piece.cloth for piece in plate.pieces.all()}
    return [cloth for cloth in Piece.ClothRole.values if cloth in on_plate]


def scale_of(plate: Plate) -> Scale:
    """Raises ScaleNotUnderstood where the plate's row holds no scale yet."""
    relative_doubt = RELATIVE_DOUBT[plate.read_from]
    if plate.scale_kind == Plate.ScaleKind.RATIO:
        return Scale.of(read_ratio(plate.ratio), relative_doubt=relative_doubt)
    if plate.scale_kind == Plate.ScaleKind.FIGURES:
        # Paper stretches under a figure, and the figure stays.
        return Scale.of(1, relative_doubt=0.0)
    page, real = plate.page_length or NO_LENGTH, plate.real or NO_LENGTH
    along = across = from_known(page.exact_mm, real.exact_mm)
    if plate.across_page_um:
        across = from_known(plate.across_page.exact_mm, real.exact_mm)
    if plate.scale_kind == Plate.ScaleKind.BAR:
        # What the page was read from no longer matters: its stretch is in the bar too.
        relative_doubt = measured_relative_doubt(page.mm, plate.rule.mm)
    return Scale(along=float(along), across=float(across), relative_doubt=relative_doubt)


def _scale_of_traced(plate: Plate, pieces: Iterable[Piece]) -> Scale:
    """The plate's scale; its doubt is that of the newest calibration where every reading was traced."""
    scale = scale_of(plate)
    doubts = [reading.doubt_um for piece in pieces for reading in piece.readings.all()]
    if not doubts or None in doubts:
        return scale
    newest = Plate.objects.newest_doubt(plate)
    return scale if newest is None else replace(scale, relative_doubt=newest)


def _allowance_mm(plate: Plate) -> float | None:
    if plate.allowance == Plate.AllowanceKind.NONE:
        return 0.0
    if plate.allowance == Plate.AllowanceKind.INCLUDED and plate.allowance_length is not None:
        return plate.allowance_length.mm
    return None


def _drawn(piece: Piece) -> Iterable[DrawnPiece]:
    """The piece as it goes round the body and, where it does, as it goes round one limb.

    A sleeve cut twice goes once round each arm, and breeches once round each thigh but twice round the waist.
    """
    readings = [reading for reading in piece.readings.all() if LINES[reading.line].kind == "girth"]
    of_limb = [reading for reading in readings if LINES[reading.line].has_sides]
    of_body = [reading for reading in readings if not LINES[reading.line].has_sides]
    for cut, some in ((piece.cut, of_body), (_cut_for_one_limb(piece), of_limb)):
        if some:
            yield DrawnPiece(
                name=piece.name,
                cut=cut,
                on_fold=piece.on_fold,
                edges=piece.edges,
                readings={reading.line: _read_off(reading) for reading in some},
            )


def _cut_for_one_limb(piece: Piece) -> int:
    return piece.cut if piece.cut % 2 else piece.cut // 2


def _read_off(reading: Reading) -> PageReading:
    return PageReading(
        length_mm=reading.reading.mm,
        take_up_mm=(reading.take_up or NO_LENGTH).mm,
        crossed_ends=reading.crossed_ends,
        u_mm=None if reading.doubt_um is None else reading.doubt_um / 1000,
        is_plain=reading.is_plain,
    )


def _fastened(plate: Plate, width: str) -> FastenedWidth:
    given = {
        fastening.line: length.mm
        for fastening in plate.fastenings.all()
        if (length := getattr(fastening, width))
    }
    everywhere_mm = given.pop("", 0.0)
    # The front of a bodice does not fasten its sleeves: a limb's own row is needed there.
    limbs_mm = {line.key: 0.0 for line in girths() if line.has_sides}
    return FastenedWidth(everywhere_mm=everywhere_mm, at_mm=limbs_mm | given)


def proposed_seams(plate: Plate) -> list[ProposedSeam]:
    """Seams that the order of the pieces suggests and that the plate does not have yet."""
    listed = [
        ListedPiece(key=piece.pk, name=piece.name, cloth=piece.cloth, cut=piece.cut, on_fold=piece.on_fold)
        for piece in plate.pieces.all()
    ]
    # Makers name edges in their own words: two pieces that are joined as often as proposed are done with.
    to_come = Counter(frozenset({seam.piece_a.key, seam.piece_b.key}) for seam in propose_seams(listed))
    to_come.subtract(Counter(frozenset({seam.piece_a_id, seam.piece_b_id}) for seam in plate.seams.all()))
    held = {_ends(seam.piece_a_id, seam.edge_a, seam.piece_b_id, seam.edge_b) for seam in plate.seams.all()}
    proposed = []
    for seam in propose_seams(listed):
        pair = frozenset({seam.piece_a.key, seam.piece_b.key})
        is_held = _ends(seam.piece_a.key, seam.edge_a, seam.piece_b.key, seam.edge_b) in held
        if to_come[pair] > 0 and not is_held:
            to_come[pair] -= 1
            proposed.append(seam)
    return proposed


def _ends(piece_a: int, edge_a: str, piece_b: int, edge_b: str) -> frozenset[tuple[int, str]]:
    return frozenset({(piece_a, edge_a), (piece_b, edge_b)})
