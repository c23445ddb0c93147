"""Outlines out as SVG and DXF, and back in from an SVG; those of one piece as tables to type in."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_POST

from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.outlines_import import take_outlines
from catalogue.tracing.actions.tracing import ChangedElsewhere, keep_typed, laid_on_print, trace_stamp
from catalogue.tracing.forms.marks import KINDS, MarkRows
from catalogue.tracing.forms.outline import EDGE_NAMES, PointRows
from catalogue.tracing.forms.outlines_import import OutlinesChoiceForm, OutlinesFileForm
from catalogue.tracing.loading.drawing import PlateTracing, drawing_of, traced_drawing
from catalogue.tracing.loading.levels import cut_levels
from catalogue.tracing.loading.outlines import (
    UNITS,
    GeometryNotUnderstood,
    current_calibration,
    faults_of,
    levels_of,
    map_of,
    shape_of,
)
from catalogue.tracing.models import TracedPiece
from catalogue.tracing.showing.dxf import dxf_of
from catalogue.tracing.showing.svg import svg_of
from catalogue.workroom.guard import open_for_edit, open_for_look
from catalogue.workroom.reader.strict_json import load_strictly


def outlines_svg(request: HttpRequest, pk: int) -> HttpResponse:
    plate, drawing = _drawing_for_look(request, pk)
    return _file(svg_of(drawing, str(plate)), "image/svg+xml", f"{slugify(str(plate))}.svg")


def outlines_dxf(request: HttpRequest, pk: int) -> HttpResponse:
    plate, drawing = _drawing_for_look(request, pk)
    return _file(dxf_of(drawing), "image/vnd.dxf", f"{slugify(str(plate))}.dxf")


def _drawing_for_look(request: HttpRequest, pk: int) -> tuple[Plate, PlateTracing]:
    plate = open_for_look(Plate, request, pk)
    drawing = traced_drawing(plate)
    if drawing is None:
        raise Http404("Nothing is traced on this plate yet.")
    return plate, drawing


def _file(text: str, kind: str, name: str) -> HttpResponse:
    answer = HttpResponse(text, content_type=kind)
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cache-Control"] = "private, no-store"
    return answer


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
        "cut_levels": cut_levels(piece.plate, only=piece),
        "edge_names": EDGE_NAMES,
        "kinds": list(KINDS),
        "lengths": [line for line in LINES.values() if line.kind == "length"],
        "levels": [line for line in LINES.values() if line.kind == "girth"],
    }
    return render(request, "tracing/outline_change.html", shown)


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
        nodes = load_strictly(request.body.decode())["nodes"]
        laid = laid_on_print(scan=calibration.scan, nodes=nodes, flat=map_of(calibration))
    except GeometryNotUnderstood as fault:
        return JsonResponse({"sentence": fault.sentence}, status=400)
    except (ValueError, KeyError, TypeError):
        return JsonResponse({"sentence": "The outline could not be read. Load the page again."}, status=400)
    return JsonResponse({"nodes": laid})


def outlines_import(request: HttpRequest, pk: int) -> HttpResponse:
    """Shown first what would be kept; kept when it is sent again with the button that says so."""
    plate = open_for_edit(Plate.objects.select_related("reference", "scan"), request, pk)
    if hasattr(plate, "scan") and current_calibration(plate) is None:
        messages.error(request, "This plate has a scan that is not calibrated: calibrate it, or delete it.")
        return redirect(plate.scan)
    form = OutlinesFileForm(request.POST or None, request.FILES or None, plate=plate)
    if not form.is_valid():
        return render(request, "tracing/outlines_import.html", {"plate": plate, "form": form})
    is_sure = "take" in request.POST
    choice = OutlinesChoiceForm(
        request.POST if is_sure else None,
        plate=plate,
        drawing=form.drawing,
        initial={"as_of": trace_stamp(plate)},
    )
    if is_sure and choice.is_valid() and _taken(request, plate, choice):
        return redirect("scan-detail", plate.pk)
    shown = {"plate": plate, "form": form, "choice": choice, "sheet": _drawn(form)}
    return render(request, "tracing/outlines_import_tried.html", shown)


def _taken(request: HttpRequest, plate: Plate, choice: OutlinesChoiceForm) -> bool:
    try:
        take_outlines(
            plate=plate,
            chosen=choice.chosen,
            levels=choice.levels,
            as_of=choice.cleaned_data["as_of"],
            by=request.user,
            at=timezone.now(),
        )
    except ChangedElsewhere:
        choice.add_error(None, "This plate was traced on another screen meanwhile: choose the file again.")
        return False
    except GeometryNotUnderstood:
        choice.add_error(None, "Something lies too far off the scan of this plate: move it in the drawing.")
        return False
    count = len(choice.chosen)
    messages.success(request, f"{count} outline{'' if count == 1 else 's'} kept. Next: what they measure.")
    return True


def _drawn(form: OutlinesFileForm) -> PlateTracing | None:
    whole = [(Piece(name=read.name), read.shape) for read in form.drawing.pieces if read.shape]
    return drawing_of(whole, form.drawing.levels)
