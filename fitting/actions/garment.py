from typing import Protocol

from django.db import transaction

from fitting.actions.outfit import add_garment
from fitting.models import Ease, Garment, GarmentReference, Outfit


class Saves(Protocol):
    """A form or formset that has been found valid."""

    def save(self) -> object: ...


@transaction.atomic
def change_garment(garment: Garment, *, forms: list[Saves]) -> Garment:
    """Save a garment with its references and its ease: all of it, or nothing."""
    for form in forms:
        form.save()
    return garment


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
