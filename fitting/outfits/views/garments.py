from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import open_for_edit
from fitting.outfits.actions import begin_garment, change_garment, make_again, move_garment
from fitting.outfits.forms.garment import GarmentAgainForm, GarmentForm, GarmentParts
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit


def garment_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = GarmentForm(request.POST or None, instance=Garment(outfit=outfit), user=request.user)
    if form.is_valid():
        garment = begin_garment(form.instance)
        messages.success(request, f"“{garment}” is in the outfit, outermost. Next: its ease.")
        return redirect("garment-change", garment.pk)
    return render(request, "outfits/garment_add.html", {"outfit": outfit, "form": form})


def garment_again(request: HttpRequest, pk: int) -> HttpResponse:
    """The same garment for another wearer: in their outfit, with their measures."""
    garment = open_for_edit(Garment, request, pk)
    form = GarmentAgainForm(request.POST or None, garment=garment)
    if form.is_valid():
        again = make_again(garment, outfit=form.cleaned_data["outfit"])
        messages.success(request, f"“{again}” is in “{again.outfit}”, outermost. Next: its measures.")
        return redirect(again)
    return render(request, "outfits/garment_again.html", {"garment": garment, "form": form})


def garment_change(request: HttpRequest, pk: int) -> HttpResponse:
    """The garment, its references and its ease; a button for more rows or for a preset saves nothing."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    form = GarmentForm(request.POST or None, instance=garment, user=request.user)
    parts = GarmentParts(request.POST or None, garment=garment, user=request.user)
    if request.method == "POST" and not parts.only_asks and all([form.is_valid(), parts.is_valid()]):
        change_garment(garment, forms=[form, parts.references, parts.eases])
        messages.success(request, f"“{garment}” is changed.")
        return redirect(garment)
    return render(request, "outfits/garment_change.html", {"garment": garment, "form": form, "parts": parts})


@require_POST
def garment_move(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    move_garment(garment, outward=request.POST.get("way") == "outward")
    messages.success(request, f"“{garment}” has changed places.")
    return redirect(garment.outfit)
