from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.workroom.guard import (
    may_change,
    open_for_edit,
    open_for_look,
    workroom_for_edit,
    workroom_for_look,
)
from catalogue.workroom.showing import what_goes_with
from fitting.bridge.dressing import in_dressing_order
from fitting.bridge.money import spending_of, with_sums
from fitting.bridge.outfit import layers_of
from fitting.dressing_order import draw_dressing_order
from fitting.forms.outfit import OutfitForm
from fitting.models.outfit import Outfit

ROWS_A_PAGE = 50
ENTRIES_SHOWN = 3
DOSSIERS_SHOWN = 5


def outfit_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    outfits = Outfit.objects.of_workroom(workroom).for_list_page()
    page = Paginator(outfits, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "fitting/outfit_list.html", {"page": page, "today": timezone.localdate()})


def outfit_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """The outfit at a glance; what is reckoned from a body has its own page."""
    outfit = open_for_look(with_sums(Outfit.objects.for_detail_page()), request, pk)
    garments = list(outfit.garments.all())
    shown = {
        "outfit": outfit,
        "may_change": may_change(request, outfit),
        "drawing": draw_dressing_order(layers_of(garments)),
        "rows": in_dressing_order(garments),
        "spending": spending_of(outfit),
        "dossiers": outfit.dossiers.for_list_page()[:DOSSIERS_SHOWN],
        "entries": outfit.log.for_list_page()[:ENTRIES_SHOWN],
        "today": timezone.localdate(),
    }
    return render(request, "fitting/outfit_detail.html", shown)


def outfit_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = OutfitForm(request.POST or None, instance=Outfit(workroom=workroom, maker=request.user))
    if form.is_valid():
        outfit = form.save()
        messages.success(request, f"“{outfit}” is begun. Add its garments from the skin outward.")
        return redirect(outfit)
    return render(request, "fitting/outfit_add.html", {"form": form})


def outfit_change(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = OutfitForm(request.POST or None, instance=outfit)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect(outfit)
    return render(request, "fitting/outfit_change.html", {"outfit": outfit, "form": form})


def outfit_delete(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    if request.method == "POST":
        outfit.delete()
        messages.success(request, f"“{outfit}” is deleted.")
        return redirect("outfit-list")
    shown = {"outfit": outfit, "goes": what_goes_with(outfit)}
    return render(request, "fitting/outfit_delete.html", shown)
