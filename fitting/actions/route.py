from datetime import datetime

from django.db import transaction

from catalogue.workroom.models import User
from fitting.models.comparison import Comparison
from fitting.models.route import RouteChoice
from fitting.outfits.models.garment import Garment


@transaction.atomic
def choose_route(
    garment: Garment,
    *,
    route: str,
    reason: str,
    why: str,
    comparison: Comparison | None,
    by: User,
    at: datetime,
) -> RouteChoice:
    """Keep a choice beside those before it. A garment that was only studied now has its route chosen."""
    choice = RouteChoice.objects.create(
        garment=garment,
        comparison=comparison,
        route=route,
        reason=reason,
        why=why,
        chosen_by=by,
        chosen_at=at,
    )
    if garment.stage == Garment.Stage.STUDIED:
        garment.stage = Garment.Stage.ROUTE_CHOSEN
        garment.save(update_fields=["stage", "changed_at"])
    return choice


def record_outcome(choice: RouteChoice, *, outcome: str, hours: float | None, at: datetime) -> RouteChoice:
    choice.outcome, choice.hours, choice.outcome_at = outcome, hours, at
    choice.save()
    return choice
