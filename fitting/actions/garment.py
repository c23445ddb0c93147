from typing import Protocol

from django.db import transaction

from fitting.models import Garment


class Saves(Protocol):
    """A form or formset that has been found valid."""

    def save(self) -> object: ...


@transaction.atomic
def change_garment(garment: Garment, *, forms: list[Saves]) -> Garment:
    """Save a garment with its references and its ease: all of it, or nothing."""
    for form in forms:
        form.save()
    return garment
