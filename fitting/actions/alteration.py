"""An alteration is decided, then ticked off in each layer that it has to reach."""

from collections.abc import Iterable
from datetime import date, datetime

from django.db import transaction

from catalogue.workroom.models import User
from fitting.models.alteration import Alteration, AlterationPart
from fitting.outfits.models.garment import Garment

# Everything else changes what is worn, and so what is measured over it.
ON_PAPER = AlterationPart.Part.PAPER


@transaction.atomic
def save_alteration(
    alteration: Alteration, *, parts: Iterable[str], by: User | None, at: datetime
) -> Alteration:
    """Save it with exactly these parts to go through; the ticks of those that stay, stay."""
    if alteration.pk is None:
        alteration.decided_by, alteration.decided_at = by, at
        alteration.wearer = alteration.garment.outfit.wearer
    alteration.save()
    wanted = [part for part in AlterationPart.Part.values if part in set(parts)]
    alteration.parts.exclude(part__in=wanted).delete()
    have = set(alteration.parts.values_list("part", flat=True))
    AlterationPart.objects.bulk_create(
        AlterationPart(alteration=alteration, part=part) for part in wanted if part not in have
    )
    return alteration


@transaction.atomic
def tick_alteration(alteration: Alteration, *, part: str, on: date | None) -> None:
    """Note that the alteration reached a layer on a day, or (None) that it did not yet."""
    alteration.parts.filter(part=part).update(done_on=on)
    garment = alteration.garment
    if on and part != ON_PAPER and (garment.made_on is None or garment.made_on < on):
        Garment.objects.filter(pk=garment.pk).update(made_on=on)
