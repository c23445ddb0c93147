from collections.abc import Sequence
from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.tracing import (
    ChangedElsewhere,
    keep_trace,
    move_level,
    put_back_by_hand,
    trace_stamp,
    use_traced,
)
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.forms.marks import POINT_WORDS, TOOLS
from catalogue.tracing.forms.outline import EDGE_NAMES
from catalogue.tracing.loading.levels import cut_levels
from catalogue.tracing.loading.outlines import (
    UNITS,
    GeometryNotUnderstood,
    current_calibration,
    levels_of,
    map_of,
    shape_of,
    shape_to_json,
)
from catalogue.tracing.loading.readings import readings_beside
from catalogue.tracing.models import Calibration, TracedPiece, TracedReading
from catalogue.tracing.showing.figures import disagreements, reckoned
from catalogue.tracing.views.scans import tiles_of
from catalogue.workroom.guard import open_for_edit
from catalogue.workroom.reader.strict_json import load_strictly


def plate_trace(request: HttpRequest, pk: int) -> HttpResponse:
    """The board with the flattened scan; without a script, the way to each piece's table."""
    plate = open_for_edit(Plate.objects.select_related("reference", "scan"), request, pk)
    calibration = current_calibration(plate)
    if calibration is None or not calibration.is_ready:
        return redirect("scan-detail", plate.pk)
    pieces = list(plate.pieces.all())
    shown = {
        "plate": plate,
        "pieces": pieces,
        "piece": _chosen(pieces, request.GET.get("piece")),
        "calibration": calibration,
        "levels": _lines("girth"),
        "lengths": _lines("length"),
        "tools": list(TOOLS),
        "edge_names": EDGE_NAMES,
        "data": _page_data(request, plate, pieces, calibration),
    }
    return render(request, "tracing/plate_trace.html", shown)


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
        drawing = load_strictly(request.body.decode())
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
        {"saved_at": saved_at, "as_of": trace_stamp(plate), **reckoned(plate, flat, request.user)}
    )


@require_POST
def level_move(request: HttpRequest, pk: int) -> HttpResponse:
    """A level drawn on the other side of the edge that cuts it short; then the page that asked for it."""
    plate = open_for_edit(Plate, request, pk)
    key = request.POST.get("move", "")
    try:
        move_level(plate=plate, key=key)
    except ChangedElsewhere:
        messages.error(request, "Not moved: something was traced here meanwhile. Look at the level again.")
    else:
        messages.success(request, "The level is moved, on every piece that it crosses.")
    back, piece = request.POST.get("back"), key.partition("-")[0]
    if back == "trace":
        return redirect(f"{reverse('plate-trace', args=[plate.pk])}?{urlencode({'piece': piece})}")
    if back == "outline" and piece.isdecimal():
        return redirect("outline-change", piece)
    return redirect("traced-readings", plate.pk)


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
    shown = {
        "plate": plate,
        "rows": readings_beside(plate),
        "sentences": disagreements(plate, request.user),
        "cut_levels": cut_levels(plate),
    }
    return render(request, "tracing/traced_readings.html", shown)


def _chosen(pieces: Sequence[Piece], wanted: str | None) -> Piece | None:
    return next((piece for piece in pieces if str(piece.pk) == wanted), pieces[0] if pieces else None)


def _page_data(
    request: HttpRequest, plate: Plate, pieces: Sequence[Piece], calibration: Calibration
) -> dict[str, Any]:
    flat = map_of(calibration)
    return {
        "plate": plate.pk,
        "board": _board(calibration),
        "drawing": _drawing(plate, pieces, flat),
        "keep": {
            "address": reverse("trace-keep", args=[plate.pk]),
            "token": get_token(request),
            "asOf": trace_stamp(plate),
        },
        "onto_line": _onto_line(pieces),
        "unit": UNITS[request.user.system],
        "labels": {line.key: line.label for line in LINES.values()},
        "tools": TOOLS,
        "points": POINT_WORDS,
        "lines": {line.key: line.label for line in _lines("length")},
        "levels": {line.key: line.label for line in _lines("girth")},
        "square_mm": _square_mm(calibration),
        "reckoned": reckoned(plate, flat, request.user),
    }


def _board(calibration: Calibration) -> dict[str, Any]:
    tiles = tiles_of(calibration)
    return {
        **{name: tiles[name] for name in ("tiles", "width", "height", "deepest")},
        "left": tiles["left_mm"],
        "top": tiles["top_mm"],
        "unit": tiles["mm_per_px"],
    }


def _onto_line(pieces: Sequence[Piece]) -> dict[int, str]:
    """Where each piece's points are sent to be laid on the printed line."""
    return {piece.pk: reverse("outline-onto-line", args=[piece.pk]) for piece in pieces}


def _drawing(plate: Plate, pieces: Sequence[Piece], flat: PixelMap) -> dict[str, Any]:
    rows = TracedPiece.objects.filter(piece__plate=plate).select_related("piece")
    traced = {row.piece_id: shape_to_json(shape_of(row, flat)) for row in rows}
    levels = [(level.line, (level.start, level.end)) for level in levels_of(plate, flat)]
    return {
        "pieces": [
            {"piece": piece.pk, **traced.get(piece.pk, {"nodes": [], "marks": []})} for piece in pieces
        ],
        "levels": [{"line": line, "points": [[at.real, at.imag] for at in ends]} for line, ends in levels],
    }


def _lines(kind: str) -> list[Line]:
    return [line for line in LINES.values() if line.kind == kind]


def _square_mm(calibration: Calibration) -> float | None:
    if calibration.way != Calibration.Way.GRID:
        return None
    squares, matrix = calibration.scan.grid["matrix"], calibration.matrix
    # Both take pixels, one to squares and one to millimetres: their ratio is the square.
    return (matrix[0][0] / matrix[2][2]) / (squares[0][0] / squares[2][2])
