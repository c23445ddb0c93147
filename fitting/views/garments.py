from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import may_change, open_for_look
from fitting.comparing.showing.shown import measures_shown
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.comparing.views import comparison_values
from fitting.fittings.loading.making import making_of
from fitting.outfits.models.garment import Garment


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
