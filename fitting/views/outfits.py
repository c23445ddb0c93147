from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from catalogue.workroom.guard import (
    may_change,
    open_for_look,
    workroom_for_look,
)
from fitting.bridge.dressing import in_dressing_order
from fitting.comparing.showing.standing import layers_of
from fitting.outfits.loading.outfit import spending_of, with_sums
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.showing import draw_dressing_order

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
