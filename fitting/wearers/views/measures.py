"""The measures of a wearer, set by set, and the dress stands of a workroom."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import (
    key_of,
    open_for_edit,
    open_for_look,
    workroom_for_edit,
    workroom_for_look,
)
from fitting.wearers.actions import confirm_measures, save_measures, save_stand
from fitting.wearers.forms.measures import MeasuresForm, TakesForm
from fitting.wearers.forms.people import StandForm
from fitting.wearers.loading import as_typed, lacing_of, stale_days_of, taken_of, why_stale
from fitting.wearers.models import Measures, Stand, Wearer
from fitting.wearers.showing import draw_figures, numbers_of

ROWS_A_PAGE = 50


def measures_add(request: HttpRequest, pk: int) -> HttpResponse:
    """`?from=7` asks first for what was measured in set 7, over the same dress; figures are not copied."""
    wearer = open_for_edit(Wearer, request, pk)
    measures = Measures(wearer=wearer, taken_on=timezone.localdate())
    before = wearer.measures.for_comparison().filter(pk=key_of(request.GET.get("from", ""))).first()
    return _type_measures(request, measures, before)


def measures_change(request: HttpRequest, pk: int) -> HttpResponse:
    measures = open_for_edit(Measures.objects.for_comparison(), request, pk)
    return _type_measures(request, measures, measures)


def _type_measures(request: HttpRequest, measures: Measures, before: Measures | None) -> HttpResponse:
    """Figures that few bodies have are asked about once; `keep` is the answer."""
    typed = request.POST or None
    form = MeasuresForm(typed, instance=measures, initial=_dressed_as(before), user=request.user)
    asked_first = {one.line for one in before.takes.all()} if before else ()
    takes = TakesForm(typed, measures=measures, user=request.user, asked_first=asked_first)
    doubts = []
    if typed and form.is_valid() & takes.is_valid():
        doubts = takes.doubts()
        if not doubts or "keep" in typed:
            save_measures(form.instance, worn=form.cleaned_data["worn"], takes=takes.takes())
            messages.success(request, "The measures are kept.")
            return redirect(form.instance)
    wearer = measures.wearer
    shown = {
        "wearer": wearer,
        "measures": measures,
        "form": form,
        "takes": takes,
        "doubts": doubts,
        "figures": draw_figures(wearer.dress),
    }
    return render(
        request, "wearers/measures_change.html" if measures.pk else "wearers/measures_add.html", shown
    )


def _dressed_as(before: Measures | None) -> dict[str, object]:
    """What stays the same from one set to the next."""
    if before is None:
        return {}
    same = ("state", "state_note", "laced_by", "measured_by", "is_sent_in")
    return {name: getattr(before, name) for name in same} | {"worn": list(before.worn.all())}


def measures_detail(request: HttpRequest, pk: int) -> HttpResponse:
    measures = open_for_look(Measures.objects.for_comparison(), request, pk)
    days, today = stale_days_of(request.user), timezone.localdate()
    shown = {
        "measures": measures,
        "wearer": measures.wearer,
        "taken": [(one, as_typed(measures, one.line)) for one in taken_of(measures).values()],
        "numbers": numbers_of(measures.wearer.dress),
        "figures": draw_figures(measures.wearer.dress),
        "why_stale": why_stale(measures, stale_days=days, today=today),
        "lacing": lacing_of(measures, measures.wearer.measures.for_comparison()),
    }
    return render(request, "wearers/measures_detail.html", shown)


@require_POST
def measures_confirm(request: HttpRequest, pk: int) -> HttpResponse:
    measures = open_for_edit(Measures, request, pk)
    confirm_measures(measures, by=request.user, on=timezone.localdate())
    messages.success(request, "Noted: checked today, still good.")
    return redirect(measures)


def stand_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    stands = Stand.objects.of_workroom(workroom).prefetch_related("measures")
    page = Paginator(stands, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "wearers/stand_list.html", {"page": page})


def stand_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = StandForm(request.POST or None, instance=Stand(workroom=workroom), user=request.user)
    if form.is_valid():
        stand = save_stand(form.instance, measures=form.measures())
        messages.success(request, f"“{stand}” is among your stands.")
        return redirect("stand-list")
    return render(request, "wearers/stand_add.html", {"form": form})


def stand_change(request: HttpRequest, pk: int) -> HttpResponse:
    stand = open_for_edit(Stand, request, pk)
    form = StandForm(request.POST or None, instance=stand, user=request.user)
    if form.is_valid():
        save_stand(stand, measures=form.measures())
        messages.success(request, f"“{stand}” is changed.")
        return redirect("stand-list")
    return render(request, "wearers/stand_change.html", {"stand": stand, "form": form})
