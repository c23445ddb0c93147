import json
from collections.abc import Sequence
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.access import open_for_edit
from catalogue.actions.tracing import (
    ChangedElsewhere,
    keep_outline,
    keep_trace,
    put_back_by_hand,
    refresh_traced_readings,
    trace_stamp,
    use_traced,
)
from catalogue.bridge import scale_of
from catalogue.forms.outline import EDGE_NAMES, PointRows
from catalogue.measuring.calibration import Calibration as Map
from catalogue.measuring.levels import LINES
from catalogue.measuring.tracing import MARK_POINTS, level_widths
from catalogue.models import Calibration, Piece, Plate, TracedPiece, TracedReading, User
from catalogue.outlines import (
    GeometryNotUnderstood,
    current_calibration,
    faults_of,
    levels_of,
    map_of,
    shape_of,
    shape_to_json,
)
from catalogue.templatetags.measures import mm_for
from catalogue.views.scans import tiles_of

UNITS = {
    "in": {"name": "in", "words": "inches", "mm": 25.4},
    "cm": {"name": "cm", "words": "centimetres", "mm": 10.0},
}


def plate_trace(request: HttpRequest, pk: int) -> HttpResponse:
    """The board with the flattened scan; without a script, the way to each piece's table."""
    plate = open_for_edit(Plate.objects.select_related("reference", "scan"), request, pk)
    calibration = current_calibration(plate)
    if calibration is None:
        return redirect("scan-detail", plate.pk)
    pieces = list(plate.pieces.all())
    shown = {
        "plate": plate,
        "pieces": pieces,
        "piece": _chosen(pieces, request.GET.get("piece")),
        "calibration": calibration,
        "levels": [line for line in LINES.values() if line.kind == "girth"],
        "lengths": [line for line in LINES.values() if line.kind == "length"],
        "marks": list(MARK_POINTS),
        "edge_names": EDGE_NAMES,
        "data": _page_data(request, plate, pieces, calibration),
    }
    return render(request, "catalogue/plate_trace.html", shown)


@require_POST
def trace_keep(request: HttpRequest, pk: int) -> JsonResponse:
    """Keep the drawing as the page sends it; answer what it comes to."""
    plate = open_for_edit(Plate, request, pk)
    calibration = current_calibration(plate)
    if calibration is None:
        return JsonResponse(
            {"sentence": "The scan is not calibrated any more. Load the page again."}, status=409
        )
    flat = map_of(calibration)
    try:
        drawing = json.loads(request.body)
        at = keep_trace(plate=plate, drawing=drawing, flat=flat, as_of=drawing["as_of"])
    except ChangedElsewhere:
        sentence = "Not saved: this plate was traced on another screen meanwhile. Load the page again."
        return JsonResponse({"sentence": sentence}, status=409)
    except GeometryNotUnderstood as fault:
        return JsonResponse({"sentence": fault.sentence}, status=400)
    except (ValueError, KeyError, TypeError):
        return JsonResponse({"sentence": "The drawing could not be read. Load the page again."}, status=400)
    saved_at = timezone.localtime(at).strftime("%H:%M:%S")
    return JsonResponse(
        {"saved_at": saved_at, "as_of": trace_stamp(plate), **_reckoned(plate, flat, request.user)}
    )


def outline_change(request: HttpRequest, pk: int) -> HttpResponse:
    """One piece's points as a table to type in, for those who do without the board."""
    piece = open_for_edit(Piece.objects.select_related("plate__reference"), request, pk)
    calibration = current_calibration(piece.plate)
    if calibration is None:
        return redirect("scan-detail", piece.plate_id)
    flat = map_of(calibration)
    traced = TracedPiece.objects.filter(piece=piece).first() or TracedPiece(piece=piece)
    unit = UNITS[request.user.system]
    rows = PointRows(request.POST or None, nodes=shape_of(traced, flat).outline.nodes, unit=unit)
    if request.method == "POST" and rows.is_valid():
        marks = shape_to_json(shape_of(traced, flat))["marks"]
        keep_outline(piece=piece, given={"nodes": rows.nodes(), "marks": marks}, flat=flat)
        refresh_traced_readings(plate=piece.plate, flat=flat)
        messages.success(request, f"The outline of “{piece}” is kept.")
        return redirect("outline-change", piece.pk)
    faults = faults_of(shape_of(traced, flat), levels_of(piece.plate, flat))
    shown = {"piece": piece, "plate": piece.plate, "rows": rows, "unit": unit, "faults": faults}
    return render(request, "catalogue/outline_change.html", shown | {"edge_names": EDGE_NAMES})


def traced_readings(request: HttpRequest, pk: int) -> HttpResponse:
    """What tracing gives beside what was read by hand; a tick lets the one stand for the other."""
    plate = open_for_edit(Plate.objects.for_detail_page(), request, pk)
    rows = list(TracedReading.objects.filter(piece__plate=plate).select_related("piece"))
    if request.method == "POST":
        ticked = set(request.POST.getlist("use"))
        use_traced(readings=[row for row in rows if str(row.pk) in ticked and not row.is_used])
        put_back_by_hand(readings=[row for row in rows if str(row.pk) not in ticked and row.is_used])
        messages.success(request, "The table of readings follows what you ticked.")
        return redirect(plate)
    by_hand = {
        (piece.pk, line): reading for piece in plate.pieces.all() for line, reading in piece.by_line.items()
    }
    scale = scale_of(plate)
    compared = [_beside(row, by_hand.get((row.piece_id, row.line)), scale.across) for row in rows]
    return render(request, "catalogue/traced_readings.html", {"plate": plate, "rows": compared})


def _beside(row: TracedReading, standing: Any, factor: float) -> dict[str, Any]:
    hand_um = row.hand_um if row.is_used else getattr(standing, "reading_um", None)
    return {
        "row": row,
        "label": LINES[row.line].label,
        "hand_um": hand_um,
        "full_mm": row.reading_um * factor / 1000,
        "apart_mm": None if hand_um is None else (row.reading_um - hand_um) * factor / 1000,
    }


def _chosen(pieces: Sequence[Piece], wanted: str | None) -> Piece | None:
    return next((piece for piece in pieces if str(piece.pk) == wanted), pieces[0] if pieces else None)


def _page_data(
    request: HttpRequest, plate: Plate, pieces: Sequence[Piece], calibration: Calibration
) -> dict[str, Any]:
    flat = map_of(calibration)
    traced = {
        row.piece_id: row for row in TracedPiece.objects.filter(piece__plate=plate).select_related("piece")
    }
    empty = {"nodes": [], "marks": []}
    tiles = tiles_of(calibration)
    return {
        "plate": plate.pk,
        "board": {
            **{name: tiles[name] for name in ("tiles", "width", "height", "deepest")},
            "left": tiles["left_mm"],
            "top": tiles["top_mm"],
            "unit": tiles["mm_per_px"],
        },
        "drawing": {
            "pieces": [
                {
                    "piece": piece.pk,
                    **(shape_to_json(shape_of(traced[piece.pk], flat)) if piece.pk in traced else empty),
                }
                for piece in pieces
            ],
            "levels": [
                {"line": level.line, "points": [[at.real, at.imag] for at in (level.start, level.end)]}
                for level in levels_of(plate, flat)
            ],
        },
        "keep": {
            "address": reverse("trace-keep", args=[plate.pk]),
            "token": get_token(request),
            "asOf": trace_stamp(plate),
        },
        "unit": UNITS[request.user.system],
        "labels": {line.key: line.label for line in LINES.values()},
        "square_mm": _square_mm(calibration),
        "reckoned": _reckoned(plate, flat, request.user),
    }


def _square_mm(calibration: Calibration) -> float | None:
    if calibration.way != Calibration.Way.GRID:
        return None
    squares, matrix = calibration.scan.grid["matrix"], calibration.matrix
    # Both take pixels, one to squares and one to millimetres: their ratio is the square.
    return (matrix[0][0] / matrix[2][2]) / (squares[0][0] / squares[2][2])


def _reckoned(plate: Plate, flat: Map, user: User) -> dict[str, Any]:
    """Every figure that counts, in the person's unit: of each piece, and of seams with both edges traced."""
    pieces, edges = [], {}
    levels = levels_of(plate, flat)
    for traced in TracedPiece.objects.filter(piece__plate=plate).select_related("piece"):
        shape = shape_of(traced, flat)
        faults = faults_of(shape, levels)
        figures = []
        if len(shape.outline.nodes) > 2:
            named = shape.edges_mm()
            edges |= {(traced.piece_id, name): mm for name, mm in named.items()}
            figures = [("all round", shape.outline.perimeter), *named.items(), *shape.lengths_mm().items()]
            for width in [] if faults else level_widths(shape, levels):
                figures.append((f"at the {LINES[width.line].label}", width.width_mm))
                if width.take_up_mm:
                    figures.append((f"taken up at the {LINES[width.line].label}", width.take_up_mm))
        pieces.append(
            {
                "piece": traced.piece_id,
                "figures": [(name, mm_for(mm, user)) for name, mm in figures],
                "exact_mm": dict(figures),
                "faults": [fault.sentence for fault in faults],
            }
        )
    return {"pieces": pieces, "seams": list(_seam_sentences(plate, edges, user))}


def _seam_sentences(plate: Plate, edges: dict[tuple[int, str], float], user: User) -> Any:
    for seam in plate.seams.select_related("piece_a", "piece_b"):
        a, b = edges.get((seam.piece_a_id, seam.edge_a)), edges.get((seam.piece_b_id, seam.edge_b))
        if a is None or b is None:
            continue
        apart = "they match"
        if mm_for(abs(a - b), user) != mm_for(0, user):
            apart = f"the first is {mm_for(abs(a - b), user)} {'longer' if a > b else 'shorter'}"
        one, other = f"{seam.piece_a} {seam.edge_a}", f"{seam.piece_b} {seam.edge_b}"
        yield f"{one} {mm_for(a, user)}, {other} {mm_for(b, user)}: {apart}."
