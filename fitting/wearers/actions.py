"""A set of measures, a stand and a maker's own words, each kept with all that belongs to it."""

from collections.abc import Iterable, Mapping
from datetime import date

from django.db import transaction
from django.db.models import Model
from django.utils import timezone

from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import User
from fitting.wearers.models import Maker, Measures, Skill, Stand, StandMeasure, Take, Wearer


@transaction.atomic
def save_measures(
    measures: Measures, *, worn: Iterable[Model], takes: Iterable[tuple[str, str, TypedLength]]
) -> Measures:
    """Save the set with exactly these takes (line, side, length): those it had before go."""
    measures.save()
    measures.worn.set(worn)
    measures.takes.all().delete()
    Take.objects.bulk_create(
        Take(measures=measures, line=line, side=side, value=length) for line, side, length in takes
    )
    return measures


def rename_wearer(wearer: Wearer, *, was: str) -> Wearer:
    """Save it; a name that is not theirs any more is kept, since others may have written it."""
    former = [name for name in wearer.former_names.splitlines() if name != wearer.name]
    if was != wearer.name and was not in former:
        former.append(was)
    wearer.former_names = "\n".join(former)
    wearer.save()
    return wearer


def confirm_measures(measures: Measures, *, by: User, on: date) -> None:
    """Note that the set was checked and still holds."""
    measures.still_good_by, measures.still_good_on, measures.still_good_at = by, on, timezone.now()
    measures.save(update_fields=["still_good_by", "still_good_on", "still_good_at"])


@transaction.atomic
def save_stand(stand: Stand, *, measures: Mapping[str, TypedLength]) -> Stand:
    """Save the stand with exactly these measures: one that is no longer among them goes."""
    stand.save()
    stand.measures.exclude(line__in=measures).delete()
    for line, length in measures.items():
        StandMeasure.objects.update_or_create(stand=stand, line=line, defaults={"value": length})
    return stand


@transaction.atomic
def save_maker(maker: Maker, *, skills: Mapping[str, str]) -> Maker:
    """Save the maker with these skills; one whose level is left empty is not asked yet again."""
    maker.save()
    maker.skills.filter(name__in=[name for name, level in skills.items() if not level]).delete()
    for name, level in skills.items():
        if not level:
            continue
        Skill.objects.update_or_create(maker=maker, name=name, defaults={"level": level})
    return maker
