"""Tells the catalogue which garments of outfits draw on reference garments."""

from collections.abc import Collection, Iterator

from django.db.models import Q, QuerySet

from catalogue.workroom import uses
from catalogue.workroom.models import User


def _garments_that_use(references: Collection[int], user: User) -> Iterator[uses.Use]:
    from fitting.outfits.models.garment import Garment

    drawing_on = Garment.objects.visible_to(user).filter(
        Q(references__reference__in=references) | Q(plate__reference__in=references)
    )
    for garment in drawing_on.select_related("outfit").distinct():
        yield uses.Use(label=f"{garment.name}, {garment.outfit}", url=garment.get_absolute_url())


def _references_used() -> Iterator[QuerySet]:
    from fitting.outfits.models.garment import Garment, GarmentReference

    yield GarmentReference.objects.values("reference")
    yield Garment.objects.filter(plate__isnull=False).values("plate__reference")


def register_uses() -> None:
    uses.register(_garments_that_use, _references_used)
