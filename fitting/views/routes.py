from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.workroom.guard import open_for_edit
from fitting.actions.route import choose_route, record_outcome
from fitting.forms.route import RouteChoiceForm, RouteOutcomeForm
from fitting.models.route import RouteChoice
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry


def route_choose(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    newest = garment.comparisons.first()
    offered = {"route": request.GET.get("route") or (newest and newest.results["recommended"])}
    standings = {one["route"]: one["standing"] for one in newest.results["routes"]} if newest else {}
    form = RouteChoiceForm(request.POST or None, initial=offered, standings=standings)
    if form.is_valid():
        choice = choose_route(
            garment, **form.cleaned_data, comparison=newest, by=request.user, at=timezone.now()
        )
        messages.success(request, f"The way to “{garment}” is chosen: {choice.route}.")
        return redirect(garment)
    return render(request, "fitting/route_choose.html", {"garment": garment, "form": form})


def route_outcome(request: HttpRequest, pk: int) -> HttpResponse:
    choice = open_for_edit(RouteChoice, request, pk)
    initial = {"hours": LogEntry.objects.hours_to_pattern(choice.garment)} if choice.hours is None else {}
    form = RouteOutcomeForm(request.POST or None, instance=choice, initial=initial)
    if form.is_valid():
        record_outcome(choice, **form.cleaned_data, at=timezone.now())
        messages.success(request, "How it turned out is kept with the choice.")
        return redirect(choice.garment)
    return render(request, "fitting/route_outcome.html", {"choice": choice, "form": form})
