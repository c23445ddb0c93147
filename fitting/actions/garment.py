from typing import Protocol

from django.db import transaction

from fitting.actions.outfit import add_garment
from fitting.models.garment import Ease, Garment, GarmentReference
from fitting.models.outfit import Outfit


class Saves(Protocol):
    """A form or formset that has been found valid."""

    def save(self) -> object: ...


@transaction.atomic
def begin_garment(garment: Garment) -> Garment:
    """Save a new garment as the outermost of its outfit; it draws on the garment of its plate."""
    add_garment(garment)
    _draw_on_its_plate(garment)
    return garment


@transaction.atomic
def change_garment(garment: Garment, *, forms: list[Saves]) -> Garment:
    """Save a garment with its references and its ease: all of it, or nothing."""
    had = Garment.objects.values_list("plate", flat=True).get(pk=garment.pk)
    for form in forms:
        form.save()
    if garment.plate_id != had:
        _draw_on_its_plate(garment)
    return garment


def _draw_on_its_plate(garment: Garment) -> None:
    """Where nobody said what it draws on, the plate says it."""
    if garment.plate and not GarmentReference.objects.filter(garment=garment).exists():
        GarmentReference.objects.create(garment=garment, reference=garment.plate.reference)


# What the same garment shares, whoever wears it. Measures, stand, stage and notes are each wearer's own.
SHARED = (
    "name", "purpose", "plate", "thickness_um", "thickness_text", "layers", "gather_ratio", "is_boned",
    "reduction_um", "reduction_text", "needs_parts", "edges_that_may_take",
)  # fmt: skip


@transaction.atomic
def make_again(garment: Garment, *, outfit: Outfit) -> Garment:
    """Begin the same garment in another wearer's outfit, outermost there, with its references and ease."""
    again = add_garment(
        Garment(
            outfit=outfit,
            again_of_id=garment.again_of_id or garment.pk,
            **{name: getattr(garment, name) for name in SHARED},
        )
    )
    for part, rows in ((GarmentReference, garment.references.all()), (Ease, garment.eases.all())):
        copies = list(rows)
        for row in copies:
            row.pk, row.garment = None, again
        part.objects.bulk_create(copies)
    return again
