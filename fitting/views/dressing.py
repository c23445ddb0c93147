from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from catalogue.workroom.guard import may_change, open_for_look
from fitting.bridge.dressing import in_dressing_order
from fitting.comparing.showing.standing import garments_as_they_stand, layers_of
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.showing import draw_dressing_order


def outfit_dressing(request: HttpRequest, pk: int) -> HttpResponse:
    """What each garment waits for and holds up; its measures and how they hold, for those who see them."""
    outfit = open_for_look(Outfit.objects.select_related("wearer", "maker"), request, pk)
    sees_measures = may_change(request, outfit)
    standings = garments_as_they_stand(outfit, by=request.user, at=timezone.now()) if sees_measures else []
    garments = [one.garment for one in standings] if sees_measures else list(outfit.garments.all())
    shown = {
        "outfit": outfit,
        "may_change": sees_measures,
        "drawing": draw_dressing_order(layers_of(garments)),
        "rows": in_dressing_order(garments, standings),
    }
    return render(request, "fitting/outfit_dressing.html", shown)
