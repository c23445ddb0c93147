from collections.abc import Iterable
from typing import Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.plates.actions import keep_plate, keep_readings
from catalogue.plates.forms.enlarge import PlateEnlargeForm
from catalogue.plates.forms.plate import DraftMeasureForm, PlateForm
from catalogue.plates.forms.readings import ReadingsForm, columns_for
from catalogue.plates.loading import plate_agreements, plate_findings, running_halves, scale_of
from catalogue.plates.models.plate import Plate
from catalogue.references.calculation import CUTTING_LISTS, list_for
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look


def plate_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """The table of readings, and what they come to at full size."""
    plate = open_for_look(Plate.objects.for_detail_page(), request, pk)
    columns = columns_for(plate, request.GET.getlist("line"))
    form = None
    if may_change(request, plate):
        form = ReadingsForm(
            plate=plate,
            lines=columns,
            user=request.user,
            sixteenths=request.session.get("sixteenths", False),
        )
    return _answer_plate(request, plate, columns, form)


@require_POST
def plate_readings(request: HttpRequest, pk: int) -> HttpResponse:
    """Keep what was typed into the table, all of it or, where something was not understood, none yet."""
    plate = open_for_edit(Plate.objects.for_detail_page(), request, pk)
    columns = [line for key, line in LINES.items() if key in request.POST.getlist("line")]
    form = ReadingsForm(request.POST, plate=plate, lines=columns, user=request.user)
    if not form.is_valid():
        return _answer_plate(request, plate, columns, form)
    sheet = form.sheet()
    keep_readings(plate=plate, sheet=sheet)
    request.session["sixteenths"] = form.cleaned_data["sixteenths"]
    messages.success(request, "The readings are kept.")
    # Columns without a reading are in no row: the address keeps them on the table.
    unread = [line.key for line in columns if line.key not in sheet.lines_read]
    if form.cleaned_data["more_line"]:
        unread.append(form.cleaned_data["more_line"])
    return redirect(table_address(plate, unread))


def table_address(plate: Plate, lines: Iterable[str]) -> str:
    """The address of the plate's table with columns for these lines as well."""
    query = urlencode({"line": list(lines)}, doseq=True)
    return f"{plate.get_absolute_url()}{'?' if query else ''}{query}#readings"


def _answer_plate(
    request: HttpRequest, plate: Plate, columns: list[Line], form: ReadingsForm | None
) -> HttpResponse:
    usual = list_for(plate.reference.kind) or list_for(plate.reference.name)
    found = plate_findings(plate)
    shown = {
        "plate": plate,
        "form": form,
        "columns": columns,
        "findings": found,
        "halves": running_halves(plate, found),
        "agreements": plate_agreements(plate, found),
        "cutting_lists": CUTTING_LISTS,
        "usual": usual.kind if usual else "",
        **(_for_another(request, plate) if plate.is_draft else {}),
    }
    return render(request, "plates/plate_detail.html", shown)


def _for_another(request: HttpRequest, plate: Plate) -> dict[str, Any]:
    """What a proportional draft comes to for the measure that the address asks for."""
    asked = request.GET if "measure" in request.GET else None
    form = DraftMeasureForm(asked, plate=plate, user=request.user)
    if not form.is_valid():
        return {"measure_form": form}
    return {"measure_form": form, "drafted": plate_findings(plate, body_mm=form.body_mm)}


def plate_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    return _answer_form(request, Plate(reference=reference), "plates/plate_add.html")


def plate_change(request: HttpRequest, pk: int) -> HttpResponse:
    plate = open_for_edit(Plate.objects.select_related("reference__workroom"), request, pk)
    return _answer_form(request, plate, "plates/plate_change.html")


def _answer_form(request: HttpRequest, plate: Plate, template: str) -> HttpResponse:
    form = PlateForm(request.POST or None, request.FILES or None, instance=plate, user=request.user)
    if form.is_valid():
        plate = keep_plate(
            plate=form.instance, picture=form.cleaned_data["picture_file"], notes=form.notes_on_picture()
        )
        messages.success(request, f"“{plate}” is kept.")
        return redirect(plate)
    return render(request, template, {"plate": plate, "reference": plate.reference, "form": form})


def plate_enlarge(request: HttpRequest, pk: int) -> HttpResponse:
    """What to set a copier or a projector to, so that the plate comes out at full size without tracing."""
    plate = open_for_look(Plate.objects.for_detail_page(), request, pk)
    form = PlateEnlargeForm(request.GET or PlateEnlargeForm.first_shown, user=request.user)
    shown = {"plate": plate, "form": form, "scale": scale_of(plate)}
    if form.is_valid():
        shown["enlarging"] = form.enlarging(scale_of(plate))
    return render(request, "plates/plate_enlarge.html", shown)
