"""A garment of an outfit as a case to assess: its plate, its wearer as dressed beneath, its maker.

`OutfitRows` holds all the rows that this takes, fetched at once: the number of queries is the same for one
garment and for twelve.
"""

import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from django.db.models import Prefetch, QuerySet
from django.utils import timezone

from catalogue.plates.calculation.readings import FastenedWidth, PlateReadings
from catalogue.plates.loading import plate_values
from catalogue.plates.models.piece import Seam
from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from fitting.comparing.calculation.case import Case, Patterns, SeamCount
from fitting.comparing.loading.body import MeasuresUsed, measures_used
from fitting.comparing.loading.draft import drafted_plate
from fitting.comparing.loading.maker import MakerValues, maker_values
from fitting.comparing.models import Comparison
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.wearers.models import Measures


@dataclass(frozen=True, slots=True, kw_only=True)
class OutfitRows:
    """An outfit with everything that its comparisons read. `garments` are in dressing order.

    `drafted`: dress and kind of the garments that the catalogue holds a proportional draft of.
    """

    outfit: Outfit
    garments: list[Garment]
    sets: list[Measures]
    patterns: list[PatternInHand]
    drafted: frozenset[tuple[str, str]]
    maker: MakerValues
    today: date

    def beneath(self, garment: Garment) -> list[Garment]:
        return [one for one in self.garments if one.order < garment.order]

    def garment(self, pk: int) -> Garment:
        return next(garment for garment in self.garments if garment.pk == pk)

    def used(self, garment: Garment) -> MeasuresUsed | None:
        """The measures that apply to one of its garments."""
        return measures_used(
            garment,
            beneath=self.beneath(garment),
            sets=self.sets,
            today=self.today,
            stale_days=self.maker.stale_days,
        )


def outfit_rows(outfit: Outfit, *, by: User | None, at: datetime) -> OutfitRows:
    """Fetch an outfit's rows. Its own maker's limits hold; those of `by` where it names no maker."""
    return rows_of_outfits([outfit], by={outfit.pk: by}, at=at)[0]


def rows_of_outfits(
    outfits: Sequence[Outfit], *, by: Mapping[int, User | None], at: datetime
) -> list[OutfitRows]:
    """Fetch the rows of one workroom's outfits together. `by`: whose limits hold where no maker is named."""
    garments = _grouped(_garments(outfits), by="outfit_id")
    wearers = {outfit.wearer_id for outfit in outfits if outfit.wearer_id}
    sets = _grouped(Measures.objects.filter(wearer__in=wearers).for_comparison(), by="wearer_id")
    workrooms = {outfit.workroom_id for outfit in outfits}
    patterns = list(PatternInHand.objects.filter(workroom__in=workrooms))
    drafted = frozenset(Plate.objects.filter(reference__workroom__in=workrooms).kinds_drafted())
    makers = {outfit.pk: outfit.maker or by[outfit.pk] for outfit in outfits}
    values = {user: maker_values(user) for user in set(makers.values())}
    return [
        OutfitRows(
            outfit=outfit,
            garments=garments[outfit.pk],
            sets=sets[outfit.wearer_id],
            patterns=patterns,
            drafted=drafted,
            maker=values[makers[outfit.pk]],
            today=timezone.localdate(at),
        )
        for outfit in outfits
    ]


def _garments(outfits: Sequence[Outfit]) -> QuerySet[Garment]:
    newest = Comparison.objects.order_by("-made_at", "-pk")[:1]
    garments = Garment.objects.filter(outfit__in=outfits).select_related(
        "plate__reference", "stand", "outfit"
    )
    return garments.prefetch_related(
        "references__reference",
        "eases",
        "route_choices",
        "stand__measures",
        "plate__pieces__readings",
        "plate__fastenings",
        "plate__seams",
        Prefetch("comparisons", queryset=newest, to_attr="newest_comparisons"),
    )


def _grouped(rows: Iterable[Any], *, by: str) -> defaultdict[int, list[Any]]:
    groups: defaultdict[int, list[Any]] = defaultdict(list)
    for row in rows:
        groups[getattr(row, by)].append(row)
    return groups


def case_of(garment: Garment, rows: OutfitRows, used: MeasuresUsed, *, drawn_out: bool = True) -> Case:
    """The case of a garment with a plate. Raises ScaleNotUnderstood where the plate states no scale.

    A proportional draft is drawn out for the wearer or, without `drawn_out`, stays as it was drawn.
    """
    plate = drafted_plate(garment.plate, used) if drawn_out else plate_values(garment.plate)
    eases = {ease.line: ease for ease in garment.eases.all()}
    return Case(
        plate=_own_gaps(garment, plate),
        body=used.body(),
        ease_mm={line: ease.ease.mm for line, ease in eases.items()},
        fit={line: Fit(ease.fit) for line, ease in eases.items()},
        limits=replace(rows.maker.limits, edges_that_may_take=garment.edges_that_may_take),
        purpose=Purpose(garment.purpose),
        seams=_seams(garment.plate),
        skills=rows.maker.skills,
        stand_mm=_stand_mm(garment),
        patterns_in_hand=_patterns_in_hand(garment, rows.patterns),
        has_draft=(garment.plate.reference.dress, garment.plate.reference.kind) in rows.drafted,
        days_left=_days_left(rows),
        hours_a_day=rows.maker.hours_a_day,
        hours=rows.maker.hours,
    )


def checksum_of(case_json: Mapping[str, Any]) -> str:
    """A checksum of a case, without what passes by itself: the days left, and measures growing old."""
    kept = {key: value for key, value in case_json.items() if key != "days_left"}
    kept["measures"] = {key: value for key, value in case_json["measures"].items() if key != "stale"}
    return hashlib.sha256(json.dumps(kept, sort_keys=True).encode()).hexdigest()


def _own_gaps(garment: Garment, plate: PlateReadings) -> PlateReadings:
    """The plate with the garment's own lacing gaps in place of those drawn."""
    own = {ease.line: ease.gap.mm for ease in garment.eases.all() if ease.gap is not None}
    if not own:
        return plate
    gap = plate.lacing_gap
    return replace(
        plate, lacing_gap=FastenedWidth(everywhere_mm=gap.everywhere_mm, at_mm={**gap.at_mm, **own})
    )


def _seams(plate: Plate) -> SeamCount:
    known = [seam.evidence for seam in plate.seams.all()]
    return SeamCount(
        recorded=known.count(Seam.Evidence.RECORDED),
        inferred=known.count(Seam.Evidence.INFERRED),
        tried=known.count(Seam.Evidence.TRIED),
        unknown=known.count(Seam.Evidence.UNKNOWN),
    )


def _stand_mm(garment: Garment) -> dict[str, float] | None:
    if garment.stand is None:
        return None
    return {one.line: one.value.mm for one in garment.stand.measures.all()}


def _patterns_in_hand(garment: Garment, patterns: list[PatternInHand]) -> Patterns:
    needed = {part.strip().casefold() for part in garment.needs_parts.split(",") if part.strip()}
    if needed and any(needed <= pattern.parts_named() for pattern in patterns):
        return Patterns.WITH_PARTS
    return Patterns.WITHOUT_PARTS if patterns else Patterns.NONE


def _days_left(rows: OutfitRows) -> float | None:
    occasion = rows.outfit.occasion_on
    # Past its day an outfit is made for another one, not yet named.
    return (occasion - rows.today).days if occasion and occasion >= rows.today else None
