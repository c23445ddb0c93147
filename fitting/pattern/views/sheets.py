"""Traced pieces graded to the wearer, and printed full size or in miniature.

The PDF is made within the request: it is drawn straight into the file, in well under a second for a gown,
and leaves nothing behind that would ask for a process of its own.
"""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify

from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import scale_of
from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import open_for_edit
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import keep_work
from fitting.pattern.forms.printing import DRAWN, FULL, GRADED, MINIATURE, SheetsForm
from fitting.pattern.loading.facts import known_of
from fitting.pattern.loading.grading import GradedGarment, grade_sheet, graded_garment
from fitting.pattern.loading.traced_plate import TracedPlate, traced_plate
from fitting.pattern.loading.version import version_after
from fitting.pattern.models import WorkNote
from fitting.pattern.showing.drawing import draw_page_plan
from fitting.pattern.showing.paper.cover import SheetTitle
from fitting.pattern.showing.paper.document import full_size_pdf, miniature_pdf
from fitting.pattern.showing.sheets import sheets_sheet
from fitting.wearers.models import Stand

HALF_INCH = TypedLength(text="1/2 in", um=12_700)  # common practice, no source
KEPT = "Kept with the garment. It is printed in the dossier’s “Pattern work”."
EIGHTH_INCH = TypedLength(text="1/8 in", um=3175)  # for tissue; common practice, no source
NO_ALLOWANCE = TypedLength(text="0 in", um=0)


def garment_grade(request: HttpRequest, pk: int) -> HttpResponse:
    """Graded by what is known now; sent by POST, the figures and drawings are kept as they are."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    traced, now = _traced(garment), timezone.now()
    shown: dict[str, Any] = {"garment": garment, "traced": traced}
    if traced and traced.shapes:
        graded = graded_garment(garment, traced, by=request.user, at=now)
        shown["graded"] = graded
        if graded.grading:
            worked = shown["worked"] = grade_sheet(graded)
            if request.method == "POST":
                note = keep_work(
                    garment, kind=WorkNote.GRADE, inputs={}, worked=worked, by=request.user, at=now
                )
                messages.success(request, KEPT)
                return redirect(note)
    return render(request, "pattern/garment_grade.html", shown)


def garment_sheets(request: HttpRequest, pk: int) -> HttpResponse:
    """Boxes, and once they are sent the page plan that comes of them; by POST, the plan is kept."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    form = _sheets_form(request, garment)
    if request.method == "POST" and form is not None and form.is_valid():
        note = keep_work(
            garment,
            kind=WorkNote.SHEETS,
            inputs={"boxes": request.GET.urlencode()},
            worked=sheets_sheet(
                form.sheet,
                made=form.made[form.cleaned_data["shape"]],
                allowance=form.allowance_text,
            ),
            by=request.user,
            at=timezone.now(),
        )
        messages.success(request, KEPT)
        return redirect(note)
    return _sheets_page(request, garment, form)


def garment_sheets_file(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    form = _sheets_form(request, garment)
    if form is None or not form.is_valid():
        return _sheets_page(request, garment, form)
    size = form.cleaned_data["size"]
    of, version, day = form.words
    made = form.made[form.cleaned_data["shape"]]
    title = SheetTitle(
        garment=of,
        made=f"{made}, 1 to {1 / form.sheet.scale:.4g}" if size == MINIATURE else made,
        printed_on=day,
        version=version,
        allowance="" if size == MINIATURE else f"Usual allowance {form.cleaned_data['allowance'].text}",
    )
    pdf = miniature_pdf(form.sheet, title) if size == MINIATURE else full_size_pdf(form.sheet, title)
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer["Content-Disposition"] = (
        f'attachment; filename="{slugify(garment.name) or "garment"}-{slugify(size)}.pdf"'
    )
    return answer


def _sheets_page(request: HttpRequest, garment: Garment, form: SheetsForm | None) -> HttpResponse:
    shown: dict[str, Any] = {"garment": garment, "form": form}
    if form is not None and form.is_valid():
        shown |= {"sheet": form.sheet, "plan": draw_page_plan(form.sheet)}
    return render(request, "pattern/garment_sheets.html", shown)


def _sheets_form(request: HttpRequest, garment: Garment) -> SheetsForm | None:
    """None where nothing of its plate is traced."""
    traced = _traced(garment)
    if traced is None or not traced.shapes:
        return None
    now = timezone.now()
    graded = graded_garment(garment, traced, by=request.user, at=now)
    calibration = traced.calibration.number if traced.calibration else 0
    known = known_of(garment, by=request.user, at=now)
    return SheetsForm(
        request.GET if "paper" in request.GET else None,
        shapes=traced.shapes,
        graded=graded.shapes,
        edge_names=traced.edge_names,
        made={
            DRAWN: f"as drawn{_drawn_for(traced.plate)}, calibration {calibration}",
            GRADED: f"graded to measures of {graded.measured}",
        },
        words=(
            f"{garment}, {garment.outfit}",
            str(version_after(garment.alterations.all())),
            f"{timezone.localdate(now):%-d %B %Y}",
        ),
        stands=Stand.objects.of_workroom(garment.its_workroom()),
        girths_mm={DRAWN: known.made_mm, GRADED: known.body_mm},
        user=request.user,
        initial=_first_values(request, traced, graded),
    )


def _drawn_for(plate: Plate) -> str:
    """A proportional draft that is printed as drawn is for nobody but the body that it was drawn for."""
    return f" for {plate.drawn_for_in_words}" if plate.is_draft else ""


def _first_values(request: HttpRequest, traced: TracedPlate, graded: GradedGarment) -> dict[str, Any]:
    inches = request.user.system == "in"
    is_figured = traced.plate.scale_kind == Plate.ScaleKind.FIGURES
    return {
        "shape": GRADED if graded.grading else DRAWN,
        "size": FULL,
        # Of printed figures there is no scale: that of most plates.
        "one_to": 8 if is_figured else round(scale_of(traced.plate).along, 3),
        "paper": "Letter" if inches else "A4",
        "roll_width": "36 in" if inches else "91.4 cm",
        "overlap": "5/8 in" if inches else "1.5 cm",
        "small_allowance": EIGHTH_INCH,
        "allowance": NO_ALLOWANCE if traced.plate.allowance == Plate.AllowanceKind.INCLUDED else HALF_INCH,
    }


def _traced(garment: Garment) -> TracedPlate | None:
    """None without a plate, or with one that has no scale."""
    if not garment.plate_id:
        return None
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
    try:
        scale_of(plate)
    except ScaleNotUnderstood:
        return None
    return traced_plate(plate)
