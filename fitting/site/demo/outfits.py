"""Stands, patterns in hand and outfits of the demo workroom, and the routes already chosen."""

from collections.abc import Mapping
from typing import Any

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.models import User, Workroom
from fitting.comparing.actions import choose_route, compare_garment, record_outcome
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.site.demo.told import Told, given
from fitting.wearers.models import Stand, StandMeasure, Wearer

Row = Mapping[str, Any]
References = Mapping[str, ReferenceGarment | Plate]


def load_outfits(
    told: Told, workroom: Workroom, wearers: Mapping[str, Wearer], references: References
) -> dict[str, Garment]:
    """The garments of every outfit, by `outfit/garment`."""
    for row in told.rows["patterns_in_hand"]:
        PatternInHand.objects.create(workroom=workroom, **row)
    stands = {row["key"]: _stand(workroom, row) for row in told.rows["stands"]}
    garments = {}
    for row in told.rows["outfits"]:
        outfit = Outfit.objects.create(
            workroom=workroom,
            wearer=wearers[row["wearer"]],
            maker=User.objects.get(username=row["maker"]),
            occasion_on=told.day(row["occasion_on"]),
            **given(row, "name", "occasion", "notes"),
        )
        for garment in row["garments"]:
            garments[f"{row['key']}/{garment['key']}"] = _garment(told, outfit, garment, references, stands)
    return garments


def compare_and_choose(told: Told, garments: Mapping[str, Garment]) -> None:
    """The comparisons made and the routes chosen before the story starts, each on its day."""
    for outfit in told.rows["outfits"]:
        by = User.objects.get(username=outfit["maker"])
        for row in outfit["garments"]:
            # Read again: the measures it is compared with came after it.
            garment = Garment.objects.for_detail_page().get(pk=garments[f"{outfit['key']}/{row['key']}"].pk)
            comparison = None
            if "compared_on" in row:
                comparison = compare_garment(garment, by=by, at=told.noon(row["compared_on"]))
            if route := row.get("route"):
                choice = choose_route(
                    garment,
                    comparison=comparison,
                    by=by,
                    at=told.noon(route["chosen_on"]),
                    **given(route, "route", "reason", "why"),
                )
                if "outcome" in route:
                    at = told.noon(route["outcome_on"])
                    record_outcome(choice, outcome=route["outcome"], hours=route["hours"], at=at)


def _stand(workroom: Workroom, row: Row) -> Stand:
    stand = Stand.objects.create(workroom=workroom, **given(row, "name", "notes"))
    for line, text in row["measures"].items():
        StandMeasure.objects.create(stand=stand, line=line, value=TypedLength.of(text))
    return stand


def _garment(
    told: Told, outfit: Outfit, row: Row, references: References, stands: Mapping[str, Stand]
) -> Garment:
    words = ("name", "order", "stage", "purpose", "layers", "gather_ratio", "is_boned", "needs_parts")
    garment = Garment.objects.create(
        outfit=outfit,
        plate=references[f"plate/{row['plate']}"] if "plate" in row else None,
        stand=stands[row["stand"]] if "stand" in row else None,
        made_on=told.day(row.get("made_on")),
        **given(row, *words, "edges_that_may_take", "notes"),
        thickness=TypedLength.of(row.get("thickness")),
        reduction=TypedLength.of(row.get("reduction")),
    )
    for drawn_on in row["references"]:
        reference = references[drawn_on["reference"]]
        GarmentReference.objects.create(garment=garment, reference=reference, what_for=drawn_on["what_for"])
    for ease in row.get("eases", ()):
        Ease.objects.create(
            garment=garment,
            **given(ease, "line", "fit", "source"),
            ease=TypedLength.of(ease["ease"], signed=True),
            gap=TypedLength.of(ease.get("gap")),
        )
    return garment
