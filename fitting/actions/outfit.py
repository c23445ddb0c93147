"""The dressing order of an outfit: 1 is next to the skin, no place empty, none taken twice."""

from django.db import transaction

from fitting.models.garment import Garment
from fitting.models.outfit import Outfit


@transaction.atomic
def add_garment(garment: Garment) -> Garment:
    """Save a new garment as the outermost of its outfit."""
    _hold(garment.outfit)
    garment.order = garment.outfit.garments.count() + 1
    garment.save()
    return garment


@transaction.atomic
def move_garment(garment: Garment, *, outward: bool) -> None:
    """Change places with the neighbour outward or inward; at the end of the row nothing changes."""
    _hold(garment.outfit)
    row = list(garment.outfit.garments.all())
    at = row.index(garment)
    to = at + 1 if outward else at - 1
    if 0 <= to < len(row):
        row[at], row[to] = row[to], row[at]
    _number(row)


@transaction.atomic
def delete_garment(garment: Garment) -> None:
    """Delete it and close the gap in the order."""
    outfit = garment.outfit
    _hold(outfit)
    garment.delete()
    _number(list(outfit.garments.all()))


def _hold(outfit: Outfit) -> None:
    # Two people may move garments of one outfit at once: the second waits here for the first.
    Outfit.objects.select_for_update().get(pk=outfit.pk)


def _number(row: list[Garment]) -> None:
    for order, garment in enumerate(row, start=1):
        if garment.order != order:
            Garment.objects.filter(pk=garment.pk).update(order=order)
