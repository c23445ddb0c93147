"""Wearers, the sheet to measure them by, and what a maker states of themselves."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.guard import open_for_edit, open_for_look, workroom_for_edit, workroom_for_measures
from fitting.wearers.actions import rename_wearer, save_maker
from fitting.wearers.forms.measures import TAKES
from fitting.wearers.forms.people import MakerForm, WearerForm
from fitting.wearers.loading import measures_over_time, newest_standing, stale_days_of
from fitting.wearers.models import Maker, Measures, Wearer
from fitting.wearers.showing import draw_figures, lines_of, numbers_of

ROWS_A_PAGE = 50


def wearer_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_measures(request)
    wearers = Wearer.objects.of_workroom(workroom).for_list_page()
    page = Paginator(wearers, ROWS_A_PAGE).get_page(request.GET.get("page"))
    days, today = stale_days_of(request.user), timezone.localdate()
    rows = [(one, *newest_standing(one, stale_days=days, today=today)) for one in page]
    return render(request, "wearers/wearer_list.html", {"page": page, "rows": rows})


def wearer_detail(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_look(Wearer.objects.for_detail_page(), request, pk)
    table = measures_over_time(wearer, stale_days=stale_days_of(request.user), today=timezone.localdate())
    shown = {"wearer": wearer, "table": table, "numbers": numbers_of(wearer.dress)}
    return render(request, "wearers/wearer_detail.html", shown)


def wearer_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = WearerForm(request.POST or None, instance=Wearer(workroom=workroom))
    if form.is_valid():
        wearer = form.save()
        messages.success(request, "Next: take measures, or print the sheet and fill it in by hand.")
        return redirect(wearer)
    return render(request, "wearers/wearer_add.html", {"form": form})


def wearer_change(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_edit(Wearer, request, pk)
    was = wearer.name
    form = WearerForm(request.POST or None, instance=wearer)
    if form.is_valid():
        rename_wearer(form.instance, was=was)
        messages.success(request, "Changed.")
        return redirect(wearer if wearer.name == was else reverse("wearer-words", args=[wearer.pk]))
    return render(request, "wearers/wearer_change.html", {"form": form, "wearer": wearer})


def wearer_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    """A sheet to print and fill in by hand, with a drawing of where each measure is taken."""
    wearer = open_for_look(Wearer, request, pk)
    lines = lines_of(wearer.dress)
    shown = {
        "wearer": wearer,
        "figures": draw_figures(wearer.dress),
        "numbers": numbers_of(wearer.dress),
        "parts": [
            (heading, [line for line in lines if line.kind == kind])
            for heading, kind in (("Girths", "girth"), ("Lengths", "length"))
        ],
        "states": Measures.State.labels,
        "takes": TAKES,
    }
    return render(request, "wearers/wearer_sheet.html", shown)


def maker_change(request: HttpRequest) -> HttpResponse:
    """A person's own limits, skills and hours: nobody else opens them, whatever workroom they share."""
    workroom_for_edit(request)
    maker = Maker.objects.filter(user=request.user).first() or Maker(user=request.user)
    form = MakerForm(request.POST or None, instance=maker, user=request.user)
    if form.is_valid():
        save_maker(maker, skills=form.skills())
        messages.success(request, "Your limits and skills are saved. New comparisons use them.")
        return redirect("maker-change")
    return render(request, "wearers/maker_change.html", {"form": form})
