import json

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.actions.printed_line import laid_on_print
from catalogue.actions.tracing import keep_typed
from catalogue.forms.marks import KINDS, MarkRows
from catalogue.forms.outline import EDGE_NAMES, PointRows
from catalogue.lengths.calculation.levels import LINES
from catalogue.models.trace import TracedPiece
from catalogue.outlines import (
    UNITS,
    GeometryNotUnderstood,
    current_calibration,
    faults_of,
    levels_of,
    map_of,
    shape_of,
)
from catalogue.plates.models.piece import Piece
from catalogue.workroom.guard import open_for_edit


def outline_change(request: HttpRequest, pk: int) -> HttpResponse:
    """One piece's points, marks and levels as tables to type in, for those who do without the board."""
    piece = open_for_edit(Piece.objects.select_related("plate__reference"), request, pk)
    calibration = current_calibration(piece.plate)
    if calibration is None:
        return redirect("scan-detail", piece.plate_id)
    flat = map_of(calibration)
    traced = TracedPiece.objects.filter(piece=piece).first() or TracedPiece(piece=piece)
    shape, levels, unit = shape_of(traced, flat), levels_of(piece.plate, flat), UNITS[request.user.system]
    typed = request.POST if request.method == "POST" else None
    points = PointRows(typed, nodes=shape.outline.nodes, unit=unit)
    marks = MarkRows(typed, marks=shape.marks, levels=levels, unit=unit)
    if typed is not None and points.is_valid() and marks.is_valid():
        try:
            nodes = points.nodes()
            if "onto-line" in typed:
                nodes = laid_on_print(scan=calibration.scan, nodes=nodes, flat=flat)
            given = {"nodes": nodes, "marks": marks.marks()}
            keep_typed(piece=piece, given=given, levels=marks.levels(), flat=flat)
        except GeometryNotUnderstood:
            messages.error(request, "Not kept yet: a place lies far off the scan.")
        else:
            messages.success(request, f"The outline of “{piece}” is kept.")
            return redirect("outline-change", piece.pk)
    shown = {
        "piece": piece,
        "plate": piece.plate,
        "points": points,
        "marks": marks,
        "unit": unit,
        "faults": faults_of(shape, levels),
        "edge_names": EDGE_NAMES,
        "kinds": list(KINDS),
        "lengths": [line for line in LINES.values() if line.kind == "length"],
        "levels": [line for line in LINES.values() if line.kind == "girth"],
    }
    return render(request, "catalogue/outline_change.html", shown)


@require_POST
def outline_onto_line(request: HttpRequest, pk: int) -> JsonResponse:
    """The points that the page sends, laid on the printed line; nothing is kept yet."""
    piece = open_for_edit(Piece.objects.select_related("plate__reference"), request, pk)
    calibration = current_calibration(piece.plate)
    if calibration is None:
        return JsonResponse(
            {"sentence": "The scan is not calibrated any more. Load the page again."}, status=409
        )
    try:
        nodes = json.loads(request.body)["nodes"]
        laid = laid_on_print(scan=calibration.scan, nodes=nodes, flat=map_of(calibration))
    except GeometryNotUnderstood as fault:
        return JsonResponse({"sentence": fault.sentence}, status=400)
    except (ValueError, KeyError, TypeError):
        return JsonResponse({"sentence": "The outline could not be read. Load the page again."}, status=400)
    return JsonResponse({"nodes": laid})
