"""Outfits begun, changed, deleted; their materials, and the list to go shopping with."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.workroom.guard import may_change, open_for_edit, open_for_look, workroom_for_edit
from fitting.outfits.forms.outfit import MaterialForm, OutfitForm
from fitting.outfits.loading.outfit import by_supplier, material_rows, spending_of, with_sums
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit


def outfit_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = OutfitForm(request.POST or None, instance=Outfit(workroom=workroom, maker=request.user))
    if form.is_valid():
        outfit = form.save()
        messages.success(request, f"“{outfit}” is begun. Add its garments from the skin outward.")
        return redirect(outfit)
    return render(request, "outfits/outfit_add.html", {"form": form})


def outfit_change(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = OutfitForm(request.POST or None, instance=outfit)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect(outfit)
    return render(request, "outfits/outfit_change.html", {"outfit": outfit, "form": form})


def material_list(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_look(with_sums(Outfit.objects.all()), request, pk)
    rows = material_rows(outfit.materials.for_list_page())
    shown = {
        "outfit": outfit,
        "may_change": may_change(request, outfit),
        "rows": rows,
        "spending": spending_of(outfit, rows),
    }
    return render(request, "outfits/material_list.html", shown)


def shopping_list(request: HttpRequest, pk: int) -> HttpResponse:
    """What is still to buy, shop by shop, to print or to hold in a hand."""
    outfit = open_for_look(with_sums(Outfit.objects.all()), request, pk)
    rows = material_rows(outfit.materials.for_list_page())
    shown = {
        "outfit": outfit,
        "shops": by_supplier(rows),
        "spending": spending_of(outfit, rows),
        "today": timezone.localdate(),
    }
    return render(request, "outfits/shopping_list.html", shown)


def material_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = MaterialForm(request.POST or None, instance=Material(outfit=outfit), user=request.user)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is on the list.")
        return redirect("material-list", outfit.pk)
    return render(request, "outfits/material_add.html", {"outfit": outfit, "form": form})


def material_change(request: HttpRequest, pk: int) -> HttpResponse:
    material = open_for_edit(Material, request, pk)
    form = MaterialForm(request.POST or None, instance=material, user=request.user)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect("material-list", material.outfit_id)
    shown = {"material": material, "outfit": material.outfit, "form": form}
    return render(request, "outfits/material_change.html", shown)
