"""Traced pieces graded to the wearer, and printed full size or in miniature.

The PDF is made within the request: it is drawn straight into the file, in well under a second for a gown,
and leaves nothing behind that would ask for a process of its own.
"""

from collections.abc import Sequence
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
from fitting.pattern.forms.printing import FULL, MINIATURE, SheetsForm
from fitting.pattern.loading.facts import known_of
from fitting.pattern.loading.garment_patterns import (
    DRAWN,
    GRADED,
    WORKING,
    GarmentPattern,
    best_of,
    garment_patterns,
    traced_of,
)
from fitting.pattern.loading.grading import grade_sheet, graded_garment
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
    traced, now = traced_of(garment), timezone.now()
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
    form, patterns = _sheets_form(request, garment)
    if request.method == "POST" and form is not None and form.is_valid():
        note = keep_work(
            garment,
            kind=WorkNote.SHEETS,
            inputs={"boxes": request.GET.urlencode()},
            worked=sheets_sheet(
                form.sheet,
                made=_made(form),
                allowance=form.allowance_text,
            ),
            by=request.user,
            at=timezone.now(),
        )
        messages.success(request, KEPT)
        return redirect(note)
    return _sheets_page(request, garment, form, patterns)


def garment_sheets_file(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    form, patterns = _sheets_form(request, garment)
    if form is None or not form.is_valid():
        return _sheets_page(request, garment, form, patterns)
    size = form.cleaned_data["size"]
    of, day = form.words
    largest = ", the largest that fits" if form.is_largest else ""
    made = form.of.made
    title = SheetTitle(
        garment=of,
        made=f"{made}, 1 to {1 / form.sheet.scale:.4g}{largest}" if size == MINIATURE else made,
        printed_on=day,
        version=form.of.paper,
        allowance="" if size == MINIATURE else f"Usual allowance {form.cleaned_data['allowance'].text}",
    )
    pdf = miniature_pdf(form.sheet, title) if size == MINIATURE else full_size_pdf(form.sheet, title)
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer["Content-Disposition"] = (
        f'attachment; filename="{slugify(garment.name) or "garment"}-{slugify(size)}.pdf"'
    )
    return answer


def _made(form: SheetsForm) -> str:
    return f"{form.of.made}, {form.of.paper}" if form.of.how == WORKING else form.of.made


def _sheets_page(
    request: HttpRequest, garment: Garment, form: SheetsForm | None, patterns: Sequence[GarmentPattern]
) -> HttpResponse:
    shown: dict[str, Any] = {"garment": garment, "form": form, "patterns": patterns}
    if form is not None and form.is_valid():
        shown |= {"sheet": form.sheet, "plan": draw_page_plan(form.sheet)}
    return render(request, "pattern/garment_sheets.html", shown)


def _sheets_form(request: HttpRequest, garment: Garment) -> tuple[SheetsForm | None, list[GarmentPattern]]:
    """And the patterns that the pieces may be of; None where nothing is drawn yet."""
    now = timezone.now()
    patterns = garment_patterns(garment, by=request.user, at=now)
    of = best_of(patterns, request.GET.get("shape", ""))
    if of is None:
        return None, []
    known = known_of(garment, by=request.user, at=now)
    girths_mm = {WORKING: of.pattern.girths(), DRAWN: known.made_mm, GRADED: known.body_mm}
    form = SheetsForm(
        request.GET if "paper" in request.GET else None,
        of=of,
        words=(f"{garment}, {garment.outfit}", f"{timezone.localdate(now):%-d %B %Y}"),
        stands=Stand.objects.of_workroom(garment.its_workroom()),
        girths_mm=girths_mm[of.how],
        user=request.user,
        initial=_first_values(request, garment.plate, of),
    )
    return form, list(patterns.values())


def _first_values(request: HttpRequest, plate: Plate | None, of: GarmentPattern) -> dict[str, Any]:
    inches = request.user.system == "in"
    is_included = plate is not None and plate.allowance == Plate.AllowanceKind.INCLUDED
    return {
        "size": FULL,
        # Of printed figures there is no scale: that of most plates.
        "one_to": round(scale_of(plate).along, 3) if plate and _has_scale(plate) else 8,
        "paper": "Letter" if inches else "A4",
        "roll_width": "36 in" if inches else "91.4 cm",
        "overlap": "5/8 in" if inches else "1.5 cm",
        "small_allowance": EIGHTH_INCH,
        # A working pattern is drawn by its seam lines.
        "allowance": NO_ALLOWANCE if is_included and of.how != WORKING else HALF_INCH,
    }


def _has_scale(plate: Plate) -> bool:
    if plate.scale_kind == Plate.ScaleKind.FIGURES:
        return False
    try:
        return scale_of(plate).along > 0
    except ScaleNotUnderstood:
        return False
