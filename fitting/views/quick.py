"""The quick comparison: one page, no record needed. What is typed travels by POST only: it is personal."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import workroom_for_edit, workroom_for_look
from fitting.actions.quick import keep_quick
from fitting.bridge.readiness import CannotCompare
from fitting.bridge.shown import shown_case
from fitting.calculation.case import Case
from fitting.chart import draw_chart
from fitting.forms.quick_sheet import QuickSheet


def quick_comparison(request: HttpRequest) -> HttpResponse:
    workroom_for_look(request)
    sheet = QuickSheet(request.POST.dict() if request.method == "POST" else None, user=request.user)
    return _answer(request, sheet, sheet.case() if sheet.asks_for_answer else None)


@require_POST
def quick_keep(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    sheet = QuickSheet(request.POST.dict(), user=request.user)
    case = sheet.case()
    if case is None or not sheet.names.is_valid():
        return _answer(request, sheet, case)
    try:
        garment = keep_quick(
            sheet.values(),
            names=sheet.names.names(),
            workroom=workroom,
            by=request.user,
            at=timezone.now(),
        )
    except CannotCompare as fault:
        sheet.faults += [one.sentence for one in fault.missing]
        return _answer(request, sheet, case)
    messages.success(
        request, "Kept: the reference garment with its plate, the wearer with measures, and the outfit."
    )
    return redirect(garment)


def _answer(request: HttpRequest, sheet: QuickSheet, case: Case | None) -> HttpResponse:
    reader = request.user
    page: dict[str, object] = {"sheet": sheet}
    if case is not None:
        writing = Writing(system=reader.system, denominator=reader.denominator)
        found = shown_case(case, None, writing, made_to_fit=request.POST.get("made_to_fit", ""))
        page["shown"] = found
        page["chart"] = draw_chart(
            found.chart,
            title="The garment on the plate against the wearer",
            system=reader.system,
            denominator=reader.denominator,
        )
    return render(request, "fitting/quick_comparison.html", page)
