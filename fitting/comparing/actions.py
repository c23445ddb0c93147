"""A garment compared, a route to its pattern chosen and its outcome told; a quick comparison become records.

Of a quick comparison all records are made, with nothing typed again, or none.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils import timezone

from catalogue.lengths.models import NO_LENGTH
from catalogue.plates.models.piece import Piece, Reading
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.index.filing import file_references
from catalogue.workroom.models import User, Workroom
from fitting.comparing.calculation.assessment import RULE_VERSION, assess
from fitting.comparing.exchange.answer import assessment_to_json
from fitting.comparing.loading.case import checksum_of, outfit_rows
from fitting.comparing.loading.draft import drafting_of
from fitting.comparing.loading.origin import origin_of
from fitting.comparing.loading.quick import QuickValues
from fitting.comparing.loading.readiness import ready_case
from fitting.comparing.models import Comparison, RouteChoice
from fitting.outfits.actions import add_garment, set_stage
from fitting.outfits.calculation.garment import Fit
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.actions import save_maker
from fitting.wearers.models import Maker, Measures, Take, Wearer


@transaction.atomic
def compare_garment(garment: Garment, *, by: User, at: datetime) -> Comparison:
    """Compare a garment's plate with its wearer, and keep what went in and what came out.

    Sentences and sums speak in the unit of `by`. Raises CannotCompare, which names what is missing.
    """
    rows = outfit_rows(garment.outfit, by=by, at=at)
    fetched = rows.garment(garment.pk)
    ready = ready_case(fetched, rows)
    assessment = assess(ready.case, system=by.system)
    return Comparison.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        inputs={
            "case": ready.case_json,
            "measures": origin_of(ready.used),
            "drafting": drafting_of(fetched.plate, ready.used),
        },
        inputs_checksum=checksum_of(ready.case_json),
        results=assessment_to_json(assessment, defaults_used={}, system=by.system),
        rule_version=RULE_VERSION,
        made_at=at,
        made_by=by,
    )


@transaction.atomic
def say_skill(garment: Garment, *, skill: str, level: str, by: User, at: datetime) -> Comparison:
    """Keep what a maker says of one skill, and compare the garment again by it. Raises CannotCompare."""
    save_maker(Maker.objects.get_or_create(user=by)[0], skills={skill: level})
    return compare_garment(garment, by=by, at=at)


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
        set_stage(garment, Garment.Stage.ROUTE_CHOSEN, on=timezone.localdate(at))
    return choice


def record_outcome(choice: RouteChoice, *, outcome: str, hours: float | None, at: datetime) -> RouteChoice:
    choice.outcome, choice.hours, choice.outcome_at = outcome, hours, at
    choice.save()
    return choice


@transaction.atomic
def keep_quick(
    values: QuickValues, *, names: Mapping[str, str], workroom: Workroom, by: User, at: datetime
) -> Garment:
    """Make the plate with its readings, the wearer with measures, the outfit and its garment; compare them.

    `names` are those of the `reference`, `wearer`, `outfit` and `garment`.
    """
    plate = _keep_plate(values, ReferenceGarment.objects.create(workroom=workroom, name=names["reference"]))
    measures = _keep_measures(values, Wearer.objects.create(workroom=workroom, name=names["wearer"]), at)
    outfit = Outfit.objects.create(workroom=workroom, name=names["outfit"], wearer=measures.wearer, maker=by)
    garment = add_garment(
        Garment(outfit=outfit, name=names["garment"], purpose=values.purpose, plate=plate, measures=measures)
    )
    GarmentReference.objects.create(garment=garment, reference=plate.reference)
    for line in (*values.levels, *values.lengths):
        if line.ease or line.fit != Fit.FITTED:
            Ease.objects.create(garment=garment, line=line.line, fit=line.fit, ease=line.ease or NO_LENGTH)
    if values.skills:
        save_maker(Maker.objects.get_or_create(user=by)[0], skills=values.skills)
    compare_garment(garment, by=by, at=at)
    file_references({plate.reference_id})
    return garment


def _keep_plate(values: QuickValues, reference: ReferenceGarment) -> Plate:
    scale: dict[str, Any] = {"scale_kind": Plate.ScaleKind.RATIO, "ratio": values.scale}
    if not isinstance(values.scale, str):
        page, real = values.scale
        scale = {"scale_kind": Plate.ScaleKind.WORDS, "ratio": "", "page_length": page, "real": real}
    plate = Plate.objects.create(
        reference=reference,
        read_from=values.read_from,
        allowance=values.allowance,
        allowance_length=values.allowance_size,
        rule=values.rule,
        **scale,
    )
    for order, drawn in enumerate(values.pieces, start=1):
        piece = Piece.objects.create(
            plate=plate, order=order, name=drawn.name, cut=drawn.cut, on_fold=drawn.on_fold
        )
        for line, length in drawn.readings.items():
            Reading.objects.create(piece=piece, line=line, reading=length, take_up=drawn.take_up.get(line))
    for level in values.levels:
        if level.overlap or level.gap:
            Fastening.objects.create(plate=plate, line=level.line, overlap=level.overlap, gap=level.gap)
    _keep_lengths(values, plate)
    return plate


def _keep_lengths(values: QuickValues, plate: Plate) -> None:
    """A length is read on some piece: the one that shares a word with its name, else the first.

    Of “side back” and “back” the plainer is meant.
    """
    read = [length for length in values.lengths if length.reading]
    pieces = list(plate.pieces.all())
    if read and not pieces:
        pieces = [Piece.objects.create(plate=plate, order=1, name="piece 1")]
    for length in read:
        words = set(length.line.split()) | ({"back"} if length.line.startswith("nape") else set())
        named = [one for one in pieces if words & set(one.name.casefold().split())]
        piece = min(named, key=lambda one: len(one.name.split()), default=pieces[0])
        Reading.objects.create(
            piece=piece, line=length.line, crossed_ends=length.crossed_ends, reading=length.reading
        )


def _keep_measures(values: QuickValues, wearer: Wearer, at: datetime) -> Measures:
    measures = Measures.objects.create(
        wearer=wearer,
        taken_on=timezone.localdate(at),
        state=values.state,
        is_sent_in=values.is_sent_in,
    )
    for line in (*values.levels, *values.lengths):
        if line.body:
            Take.objects.create(measures=measures, line=line.line, value=line.body)
    return measures
