"""Outlines back into the program: read from an SVG, looked at, and only then kept."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.actions.outlines_import import take_outlines
from catalogue.actions.tracing import ChangedElsewhere, trace_stamp
from catalogue.drawn_outlines.drawing import Drawing, drawing_of
from catalogue.forms.outlines_import import OutlinesChoiceForm, OutlinesFileForm
from catalogue.outlines import GeometryNotUnderstood, current_calibration
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import open_for_edit


def outlines_import(request: HttpRequest, pk: int) -> HttpResponse:
    """Shown first what would be kept; kept when it is sent again with the button that says so."""
    plate = open_for_edit(Plate.objects.select_related("reference", "scan"), request, pk)
    if hasattr(plate, "scan") and current_calibration(plate) is None:
        messages.error(request, "This plate has a scan that is not calibrated: calibrate it, or delete it.")
        return redirect(plate.scan)
    form = OutlinesFileForm(request.POST or None, request.FILES or None, plate=plate)
    if not form.is_valid():
        return render(request, "catalogue/outlines_import.html", {"plate": plate, "form": form})
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
    return render(request, "catalogue/outlines_import_tried.html", shown)


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


def _drawn(form: OutlinesFileForm) -> Drawing | None:
    whole = [(Piece(name=read.name), read.shape) for read in form.drawing.pieces if read.shape]
    return drawing_of(whole, form.drawing.levels)
