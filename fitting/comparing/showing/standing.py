"""How each garment of an outfit stands: measures, newest comparison, what is missing, the route chosen."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import NO_LENGTH
from catalogue.workroom.models import User
from fitting.comparing.calculation.assessment import RULE_VERSION
from fitting.comparing.exchange.answer import AssessmentAnswer, answer_from_json
from fitting.comparing.loading.body import MeasuresUsed
from fitting.comparing.loading.case import OutfitRows, checksum_of, outfit_rows
from fitting.comparing.loading.readiness import CannotCompare, Hindrance, ready_case
from fitting.comparing.models import Comparison, RouteChoice
from fitting.comparing.showing.comparison import verdict_counts
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.showing import FigureLayer
from fitting.wearers.calculation.lacing import Lacing

_STATES = {
    Garment.Stage.STUDIED: "studied",
    Garment.Stage.ROUTE_CHOSEN: "studied",
    Garment.Stage.SEWN: "made",
    Garment.Stage.FINISHED: "made",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentStanding:
    """`is_out_of_date`: the newest comparison would now be another. Nothing `missing`: one can be made.

    `is_by_older_rules`: it is so for the rules that it was made by, whatever else has changed.
    """

    garment: Garment
    used: MeasuresUsed | None
    newest: Comparison | None
    is_out_of_date: bool
    is_by_older_rules: bool
    missing: tuple[Hindrance, ...]
    choice: RouteChoice | None

    @property
    def why_out_of_date(self) -> str:
        """Why the newest comparison is out of date, in a sentence; empty where it still holds."""
        if self.is_by_older_rules:
            return "The rules that it was made by have changed since."
        return "Something that it was made from has changed since." if self.is_out_of_date else ""

    @property
    def unmeasured(self) -> list[str]:
        """What was read on its plate and not measured on the wearer: it is left out of a comparison."""
        pieces = self.garment.plate.pieces.all() if self.garment.plate else ()
        read = {reading.line for piece in pieces for reading in piece.readings.all()}
        measured = self.used.lines if self.used else {}
        return [line.label for line in LINES.values() if line.key in read and line.key not in measured]

    @property
    def lacing(self) -> Lacing | None:
        """How far stays are to take in the waist, as stated or by their ease; None for other garments."""
        waist = self.used.lines.get("waist") if self.used else None
        if not self.garment.is_boned or waist is None:
            return None
        eases = [ease.ease.mm for ease in self.garment.eases.all() if ease.line == "waist"]
        reduction_mm = max((self.garment.reduction or NO_LENGTH).mm, *(-mm for mm in eases), 0.0)
        return Lacing(
            natural_mm=waist.taken.mm,
            inside_mm=waist.taken.mm - reduction_mm,
            is_newcomer=self.garment.outfit.wearer.is_new_to_lacing,
        )

    @property
    def answer(self) -> AssessmentAnswer | None:
        """What the newest comparison came to."""
        return answer_from_json(self.newest.results) if self.newest else None

    @property
    def verdicts(self) -> list[tuple[str, int]]:
        answer = self.answer
        return list(verdict_counts(answer)) if answer else []


def garments_as_they_stand(outfit: Outfit, *, by: User | None, at: datetime) -> list[GarmentStanding]:
    return standings_of(outfit_rows(outfit, by=last_to_compare(outfit) or by, at=at))


def garment_as_it_stands(garment: Garment, *, by: User, at: datetime) -> GarmentStanding:
    rows = outfit_rows(garment.outfit, by=last_to_compare(garment.outfit) or by, at=at)
    return _standing(rows.garment(garment.pk), rows)


def standings_of(rows: OutfitRows) -> list[GarmentStanding]:
    return [_standing(garment, rows) for garment in rows.garments]


def last_to_compare(outfit: Outfit) -> User | None:
    """Who compared last: by their limits an outfit without a maker is judged, so that every reader sees the
    same.
    """
    last = Comparison.objects.filter(garment__outfit=outfit).select_related("made_by").first()
    return last.made_by if last else None


def layers_of(garments: Iterable[Garment]) -> list[FigureLayer]:
    """The garments as the drawing of the dressing order takes them."""
    return [
        FigureLayer(order=one.order, name=one.name, state=_STATES.get(one.stage, "being made"))
        for one in garments
    ]


def _standing(garment: Garment, rows: OutfitRows) -> GarmentStanding:
    newest = next(iter(garment.newest_comparisons), None)
    is_by_older_rules = newest is not None and newest.rule_version != RULE_VERSION
    missing: tuple[Hindrance, ...] = ()
    checksum = None
    try:
        checksum = checksum_of(ready_case(garment, rows).case_json)
    except CannotCompare as fault:
        missing = fault.missing
    return GarmentStanding(
        garment=garment,
        used=rows.used(garment),
        newest=newest,
        is_out_of_date=newest is not None and (is_by_older_rules or checksum != newest.inputs_checksum),
        is_by_older_rules=is_by_older_rules,
        missing=missing,
        choice=next(iter(garment.route_choices.all()), None),
    )
