from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from catalogue.workroom.showing import what_goes_with
from fitting.actions.garment import begin_garment, change_garment, make_again
from fitting.actions.outfit import delete_garment, move_garment
from fitting.bridge.making import making_of
from fitting.bridge.outfit import garment_as_it_stands
from fitting.bridge.shown import measures_shown
from fitting.forms.garment import GarmentAgainForm, GarmentForm
from fitting.forms.garment_parts import GarmentParts
from fitting.models.garment import Garment
from fitting.models.outfit import Outfit
from fitting.views.comparisons import comparison_values


def garment_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = GarmentForm(request.POST or None, instance=Garment(outfit=outfit), user=request.user)
    if form.is_valid():
        garment = begin_garment(form.instance)
        messages.success(request, f"“{garment}” is in the outfit, outermost. Next: its ease.")
        return redirect("garment-change", garment.pk)
    return render(request, "fitting/garment_add.html", {"outfit": outfit, "form": form})


def garment_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """Readers see what it draws on; what is reckoned from a body only those who may write."""
    garment = open_for_look(Garment.objects.for_detail_page(), request, pk)
    page: dict[str, object] = {
        "garment": garment,
        "may_change": may_change(request, garment),
        "tasks": garment.tasks.open().with_hours(),
    }
    if page["may_change"]:
        standing = garment_as_it_stands(garment, by=request.user, at=timezone.now())
        writing = Writing(system=request.user.system, denominator=request.user.denominator)
        page |= {
            "standing": standing,
            "choices": garment.route_choices.all(),
            "making": making_of(standing, writing),
            "for_others": Garment.objects.same_as(garment),
        }
        if standing.used:
            page["measures"] = measures_shown(standing.used, writing)
        if standing.newest:
            made_to_fit = request.GET.get("made_to_fit", "")
            page |= comparison_values(standing.newest, request.user, made_to_fit=made_to_fit)
    return render(request, "fitting/garment_detail.html", page)


def garment_again(request: HttpRequest, pk: int) -> HttpResponse:
    """The same garment for another wearer: in their outfit, with their measures."""
    garment = open_for_edit(Garment, request, pk)
    form = GarmentAgainForm(request.POST or None, garment=garment)
    if form.is_valid():
        again = make_again(garment, outfit=form.cleaned_data["outfit"])
        messages.success(request, f"“{again}” is in “{again.outfit}”, outermost. Next: its measures.")
        return redirect(again)
    return render(request, "fitting/garment_again.html", {"garment": garment, "form": form})


def garment_change(request: HttpRequest, pk: int) -> HttpResponse:
    """The garment, its references and its ease; a button for more rows or for a preset saves nothing."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    form = GarmentForm(request.POST or None, instance=garment, user=request.user)
    parts = GarmentParts(request.POST or None, garment=garment, user=request.user)
    if request.method == "POST" and not parts.only_asks and all([form.is_valid(), parts.is_valid()]):
        change_garment(garment, forms=[form, parts.references, parts.eases])
        messages.success(request, f"“{garment}” is changed.")
        return redirect(garment)
    return render(request, "fitting/garment_change.html", {"garment": garment, "form": form, "parts": parts})


@require_POST
def garment_move(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    move_garment(garment, outward=request.POST.get("way") == "outward")
    messages.success(request, f"“{garment}” has changed places.")
    return redirect(garment.outfit)


def garment_delete(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    if request.method == "POST":
        delete_garment(garment)
        messages.success(request, f"“{garment}” is deleted.")
        return redirect(garment.outfit)
    shown = {"garment": garment, "goes": what_goes_with(garment)}
    return render(request, "fitting/garment_delete.html", shown)
