"""A comparison made and read, the route chosen after it, and the quick comparison.

The quick one needs no record: one page, and what is typed travels by POST only, since it is personal.
"""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import open_for_edit, open_for_look, workroom_for_edit, workroom_for_look
from catalogue.workroom.models import User
from fitting.comparing.actions import choose_route, compare_garment, keep_quick, record_outcome, say_skill
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.routes import ENLARGING
from fitting.comparing.exchange.answer import answer_from_json
from fitting.comparing.forms.quick_sheet import QuickSheet
from fitting.comparing.forms.route import SKILL_ANSWERS, RouteChoiceForm, RouteOutcomeForm, SkillForm
from fitting.comparing.loading.readiness import CannotCompare
from fitting.comparing.models import Comparison, RouteChoice
from fitting.comparing.showing.chart import draw_chart
from fitting.comparing.showing.comparison import shown, shown_case
from fitting.comparing.showing.standing import GarmentStanding, garment_as_it_stands
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry


@require_POST
def comparison_make(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    try:
        comparison = compare_garment(garment, by=request.user, at=timezone.now())
    except CannotCompare as fault:
        messages.error(request, f"“{garment}” cannot be compared yet. {fault}")
        return redirect(garment)
    messages.success(request, f"“{garment}” is compared.")
    return redirect(comparison)


@require_POST
def skill_say(request: HttpRequest, pk: int) -> HttpResponse:
    """A skill said in one tap: kept for good, and the garment is compared again by it."""
    garment = open_for_edit(Garment, request, pk)
    form = SkillForm(request.POST)
    if not form.is_valid():
        messages.error(request, "That is no answer to how well you can do it: press one of the three.")
        return redirect(garment)
    said = {name: form.cleaned_data[name] for name in ("skill", "level")}
    try:
        comparison = say_skill(garment, **said, by=request.user, at=timezone.now())
    except CannotCompare as fault:
        messages.error(request, f"“{garment}” cannot be compared again. {fault}")
        return redirect(garment)
    messages.success(request, "Kept among your skills, and compared again.")
    return redirect(garment if form.cleaned_data["page"] == "garment" else comparison)


def comparison_detail(request: HttpRequest, pk: int) -> HttpResponse:
    rows = Comparison.objects.select_related("garment__outfit__wearer", "made_by")
    comparison = open_for_look(rows, request, pk)
    garment = comparison.garment
    standing = garment_as_it_stands(garment, by=request.user, at=timezone.now())
    page = {
        "comparison": comparison,
        "garment": garment,
        "standing": standing,
        "is_newest": standing.newest == comparison,
        "is_current": standing.newest == comparison and not standing.is_out_of_date,
        "others": garment.comparisons.exclude(pk=pk).defer("inputs", "results"),
        **comparison_values(
            standing, comparison, request.user, made_to_fit=request.GET.get("made_to_fit", "")
        ),
    }
    return render(request, "comparing/comparison_detail.html", page)


def comparison_values(
    standing: GarmentStanding, comparison: Comparison, reader: User, *, made_to_fit: str
) -> dict[str, object]:
    """What every page that shows a comparison draws it from; `made_to_fit` as its address asks for it.

    `asks`: the skill to be said. Only they are asked whose skills judge it, and of what still stands.
    `enlarging`: the routes whose working pattern begins with the plate.
    """
    writing = Writing(system=reader.system, denominator=reader.denominator)
    found = shown(comparison, writing, made_to_fit=made_to_fit)
    chart = draw_chart(
        found.chart,
        title=f"{comparison.garment} against the wearer",
        system=reader.system,
        denominator=reader.denominator,
    )
    outfit = comparison.garment.outfit
    is_asked = reader.pk in (outfit.maker_id, None if outfit.maker_id else comparison.made_by_id)
    stands = standing.newest == comparison and not standing.is_out_of_date
    asks = found.skill if is_asked and stands else ""
    return {
        "shown": found,
        "chart": chart,
        "asks": asks,
        "levels": SKILL_ANSWERS,
        "enlarging": ENLARGING,
        "has_pattern": comparison.garment.pattern_versions.exists(),
    }


def route_choose(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    newest = garment.comparisons.first()
    answer = answer_from_json(newest.results) if newest else None
    offered = {"route": request.GET.get("route") or (answer and answer.recommended)}
    standings = {one.route: one.standing for one in answer.routes} if answer else {}
    form = RouteChoiceForm(request.POST or None, initial=offered, standings=standings)
    if form.is_valid():
        choice = choose_route(
            garment, **form.cleaned_data, comparison=newest, by=request.user, at=timezone.now()
        )
        messages.success(request, f"The way to “{garment}” is chosen: {choice.route}.")
        return redirect(garment)
    return render(request, "comparing/route_choose.html", {"garment": garment, "form": form})


def route_outcome(request: HttpRequest, pk: int) -> HttpResponse:
    choice = open_for_edit(RouteChoice, request, pk)
    initial = {"hours": LogEntry.objects.hours_to_pattern(choice.garment)} if choice.hours is None else {}
    form = RouteOutcomeForm(request.POST or None, instance=choice, initial=initial)
    if form.is_valid():
        record_outcome(choice, **form.cleaned_data, at=timezone.now())
        messages.success(request, "How it turned out is kept with the choice.")
        return redirect(choice.garment)
    return render(request, "comparing/route_outcome.html", {"choice": choice, "form": form})


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
    return render(request, "comparing/quick_comparison.html", page)
