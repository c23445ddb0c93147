"""Members, makers and wearers of the demo workroom."""

from collections.abc import Iterator, Mapping
from typing import Any

from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import Member, User, Workroom
from fitting.outfits.models.garment import Garment
from fitting.site.demo.told import Told, given
from fitting.wearers.actions import save_maker, save_measures
from fitting.wearers.models import Maker, Measures, Wearer


def load_members(told: Told, workroom: Workroom) -> None:
    """Nobody gets a password: they sign in by a one-time address."""
    for row in told.rows["workroom"]["members"]:
        about = given(row, "first_name", "last_name", "system", "denominator")
        user = User.objects.create_user(username=row["username"], **about)
        Member.objects.create(workroom=workroom, user=user, role=row["role"])


def load_makers(told: Told) -> None:
    for row in told.rows["makers"]:
        user = User.objects.get(username=row["username"])
        save_maker(Maker(user=user, **given(row, "hours_a_day", "stale_days")), skills=row["skills"])


def load_wearers(told: Told, workroom: Workroom) -> dict[str, Wearer]:
    return {
        row["key"]: Wearer.objects.create(
            workroom=workroom, **given(row, "name", "dress", "is_new_to_lacing", "notes")
        )
        for row in told.rows["wearers"]
    }


def load_measures(told: Told, wearers: Mapping[str, Wearer], garments: Mapping[str, Garment]) -> None:
    """Each wearer's sets, and for each garment the set that it is compared with."""
    sets = {
        row["key"]: _measures(told, wearers[wearer["key"]], row, garments)
        for wearer in told.rows["wearers"]
        for row in wearer["measures"]
    }
    for outfit in told.rows["outfits"]:
        for row in outfit["garments"]:
            if "measures" in row:
                garment = garments[f"{outfit['key']}/{row['key']}"]
                garment.measures = sets[row["measures"]]
                garment.save(update_fields=["measures"])


def _measures(
    told: Told, wearer: Wearer, row: Mapping[str, Any], garments: Mapping[str, Garment]
) -> Measures:
    measures = Measures(
        wearer=wearer,
        taken_on=told.day(row["taken_on"]),
        **given(row, "state", "state_note", "laced_by", "measured_by", "is_sent_in", "notes"),
    )
    for name in ("gap_top", "gap_waist", "gap_bottom", "heel"):
        setattr(measures, name, TypedLength.of(row.get(name)))
    worn = [garments[key] for key in row["worn"]]
    return save_measures(measures, worn=worn, takes=_takes(row["takes"]))


def _takes(lines: Mapping[str, Any]) -> Iterator[tuple[str, str, TypedLength]]:
    for line, taken in lines.items():
        by_side = taken if isinstance(taken, dict) else {"": taken}
        for side, texts in by_side.items():
            yield from ((line, side, TypedLength.read(text)) for text in texts)
