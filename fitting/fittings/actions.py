"""A fitting planned, held and closed; alterations decided and ticked off; a toile's outcome kept.

What a phone sends twice is kept once.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction
from django.utils import timezone

from catalogue.lengths.models import TypedLength
from catalogue.photographs.actions import keep_copies
from catalogue.photographs.imaging import PreparedImage
from catalogue.plates.models.piece import Seam
from catalogue.workroom.models import User
from fitting.fittings.models.alteration import Alteration, AlterationPart
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.actions import set_stage
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Measures

# Everything else changes what is worn, and so what is measured over it.
ON_PAPER = AlterationPart.Place.PAPER
# A source's word on how a seam is sewn stays above what a trial found possible.
SETTLED_BY_TRIAL = (Seam.Evidence.INFERRED, Seam.Evidence.UNKNOWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedObservation:
    """One observation as it was tapped or typed."""

    garment: Garment
    place: str
    what: str
    side: str = ""
    amount: TypedLength | None = None
    note: str = ""
    client_key: UUID | None = None
    pictures: Sequence[PreparedImage] = ()


@transaction.atomic
def save_fitting(fitting: Fitting, *, garments: Iterable[Garment]) -> Fitting:
    """Save a plan; the person fitted is the outfit's wearer as it is planned."""
    if fitting.pk is None:
        fitting.wearer = fitting.outfit.wearer
    fitting.save()
    fitting.garments.set(garments)
    return fitting


@transaction.atomic
def observe(fitting: Fitting, seen: TypedObservation, *, by: User, at: datetime) -> Observation:
    """Keep what was seen. Sent again under the same key, it is the one kept before."""
    # Two sendings of one observation may arrive at once: the second waits here, then finds the first.
    Fitting.objects.select_for_update().get(pk=fitting.pk)
    observation, is_new = Observation.objects.get_or_create(
        fitting=fitting,
        client_key=seen.client_key or uuid4(),
        defaults={
            "garment": seen.garment,
            "place": seen.place,
            "side": seen.side,
            "what": seen.what,
            "amount": seen.amount,
            "note": seen.note,
            "seen_at": at,
            "seen_by": by,
        },
    )
    if is_new:
        keep_photos(observation, seen.pictures)
        # A phone may send what it kept after the fitting was closed: nothing seen is left lying.
        if fitting.closed_at:
            reopen_fitting(fitting)
    return observation


def keep_photos(observation: Observation, pictures: Iterable[PreparedImage]) -> list[ObservationPhoto]:
    return [_keep(observation, picture) for picture in pictures]


def _keep(observation: Observation, picture: PreparedImage) -> ObservationPhoto:
    photo = ObservationPhoto(observation=observation)
    keep_copies(photo, picture)
    photo.save()
    return photo


@transaction.atomic
def observe_all(
    fitting: Fitting, seen: Iterable[TypedObservation], *, by: User, at: datetime
) -> list[Observation]:
    """Keep a whole paper sheet, typed up."""
    return [observe(fitting, one, by=by, at=at) for one in seen]


def drop_observation(observation: Observation, *, because: str) -> None:
    observation.dropped_because = because
    observation.save(update_fields=["dropped_because", "changed_at"])


@transaction.atomic
def close_fitting(
    fitting: Fitting,
    *,
    confirmed: Iterable[Alteration],
    fitted: Iterable[Garment],
    measures: Measures | None,
    wear: Iterable[str],
    checks: Iterable[str],
    by: User,
    at: datetime,
) -> None:
    """Close it: these alterations of earlier fittings are good now, these toiles are fitted.

    `wear` and `checks`: what was to be worn and checked, reckoned before anything of that is settled.
    """
    fitting.wear_said, fitting.checks_said = "\n".join(wear), "\n".join(checks)
    for alteration in confirmed:
        alteration.confirmed_in = fitting
        alteration.save(update_fields=["confirmed_in", "changed_at"])
    for garment in fitted:
        set_stage(garment, Garment.Stage.FITTED, on=timezone.localdate(at))
    fitting.measures, fitting.closed_by, fitting.closed_at = measures, by, at
    fitting.save(
        update_fields=["wear_said", "checks_said", "measures", "closed_by", "closed_at", "changed_at"]
    )


def reopen_fitting(fitting: Fitting) -> None:
    fitting.closed_by, fitting.closed_at = None, None
    fitting.wear_said, fitting.checks_said = "", ""
    fitting.save(update_fields=["wear_said", "checks_said", "closed_by", "closed_at", "changed_at"])


@transaction.atomic
def save_alteration(
    alteration: Alteration, *, parts: Iterable[str], by: User | None, at: datetime
) -> Alteration:
    """Save it with exactly these parts to go through; the ticks of those that stay, stay."""
    if alteration.pk is None:
        alteration.decided_by, alteration.decided_at = by, at
        alteration.wearer = alteration.garment.outfit.wearer
    alteration.save()
    wanted = [part for part in AlterationPart.Place.values if part in set(parts)]
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
        Garment.objects.filter(pk=garment.pk).update(made_on=on, made_said_at=timezone.now())


@transaction.atomic
def save_trial(trial: Trial, *, seams: Iterable[Seam], measures: Iterable[Mapping[str, Any]]) -> Trial:
    """Save it with exactly these measures; the seams it settled count as tried on their plate."""
    settled = list(seams)
    trial.save()
    trial.seams.set(settled)
    keys = [seam.pk for seam in settled]
    Seam.objects.filter(pk__in=keys, evidence__in=SETTLED_BY_TRIAL).update(evidence=Seam.Evidence.TRIED)
    trial.measures.all().delete()
    wearer = trial.garment.outfit.wearer
    TrialMeasure.objects.bulk_create(TrialMeasure(trial=trial, wearer=wearer, **row) for row in measures)
    return trial
