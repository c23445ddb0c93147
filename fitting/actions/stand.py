from collections.abc import Mapping

from django.db import transaction

from catalogue.lengths.models import TypedLength
from fitting.models.stand import Stand, StandMeasure


@transaction.atomic
def save_stand(stand: Stand, *, measures: Mapping[str, TypedLength]) -> Stand:
    """Save the stand with exactly these measures: one that is no longer among them goes."""
    stand.save()
    stand.measures.exclude(line__in=measures).delete()
    for line, length in measures.items():
        StandMeasure.objects.update_or_create(
            stand=stand, line=line, defaults={"value_um": length.um, "value_text": length.text}
        )
    return stand
