"""Skirts from JSON: part of a circle, gores, or lengths over a support. What `skirt` reads."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.workroom.reader.entries import Entry
from fitting.pattern.calculation.skirts import (
    Gore,
    GoreShare,
    RingPiece,
    circle_skirt,
    equal_shares,
    gores,
    uneven_seams,
)
from fitting.pattern.calculation.support import Train, skirt_lengths
from fitting.pattern.exchange.sum_file import Answer, Kind, length_if_given

FORMAT = "plate-and-toile skirt"
MOST_GORES = 40
PLACES = 8  # lengths over a support are told at every eighth of the half
SHARES = ("name", "cut", "waist", "hip", "hem", "length", "straight_edge")


def _circle(entry: Entry) -> Callable[[], Answer]:
    """Holds waist, length; part of a circle, 1 for the whole; allowance, opening (what laps over)."""
    table = entry.table(("waist", "length", "part", "allowance", "opening"))
    given = {f"{name}_mm": table[name].length() for name in ("waist", "length")}
    given |= {f"{name}_mm": table[name].length("0 in") for name in ("allowance", "opening")}
    part = table["part"].number(1)

    def reckon() -> Answer:
        skirt = circle_skirt(**given, part=part)
        chalk = {"chalk_inner_mm": skirt.chalk_inner_mm, "chalk_outer_mm": skirt.chalk_outer_mm}
        return _ring(skirt.seam_line) | chalk

    return reckon


def _gores(entry: Entry) -> Callable[[], Answer]:
    """Holds waist, hip, hem, length; hip_depth; number, or shares with name, cut, waist, hip, hem, length,
    straight_edge.
    """
    table = entry.table(("waist", "hip", "hem", "length", "hip_depth", "number", "shares"))
    given = {f"{name}_mm": table[name].length() for name in ("waist", "hip", "hem", "length")}
    given["hip_depth_mm"] = table["hip_depth"].length("7 in")
    if ("number" in table) == ("shares" in table):
        entry.fault("Give either the number of gores, all alike, or the shares of each.")
    shares = tuple(_share(one, at) for at, one in enumerate(table["shares"].items(), start=1))
    if "number" in table:
        shares = equal_shares(max(1, table["number"].whole(least=2, most=MOST_GORES)))

    def reckon() -> Answer:
        try:
            made = gores(shares, **given)
        except Faults as faults:
            raise Faults(
                Fault(_place_of(fault, shares), fault.sentence) for fault in faults.faults
            ) from faults
        seams = [
            {"gores": [one.name, other.name], "lengths_mm": [one.piece.length_mm, other.piece.length_mm]}
            for one, other in uneven_seams(made)
        ]
        return {"gores": [_gore(gore) for gore in made], "uneven_seams": seams}

    return reckon


def _place_of(fault: Fault, shares: Sequence[GoreShare]) -> str:
    """Gores are told by their name in a fault; in a file they have a place."""
    names = [share.name for share in shares]
    if fault.where not in names:
        return fault.where
    return f"shares[{names.index(fault.where)}]" if len(names) > 1 else "hem"


def _share(entry: Entry, at: int) -> GoreShare:
    table = entry.table(SHARES)
    parts: dict[str, Any] = {name: table[name].number() for name in ("waist", "hip", "hem")}
    return GoreShare(
        name=table["name"].text(f"gore {at}") or "",
        cut=table["cut"].whole(1, least=1, most=MOST_GORES),
        length_mm=length_if_given(table["length"]),
        straight_edge=table["straight_edge"].yes_or_no(False),
        **parts,
    )


def _support(entry: Entry) -> Callable[[], Answer]:
    """Holds heights with place (0 centre front, 1 centre back) and height; clearance; train: length, from."""
    table = entry.table(("heights", "clearance", "train"))
    heights = [
        (one["place"].number(), one["height"].length())
        for one in (row.table(("place", "height")) for row in table["heights"].items())
    ]
    train = table["train"].table(("length", "from"))
    laid = Train(length_mm=train["length"].length("0 in"), from_place=train["from"].number(0.5))
    clearance_mm = table["clearance"].length("0 in")

    def reckon() -> Answer:
        lengths = skirt_lengths(heights, clearance_mm=clearance_mm, train=laid)
        rows = [
            {
                "place": at / PLACES,
                "taped_mm": lengths.taped.at(at / PLACES),
                "length_mm": lengths.at(at / PLACES),
                "off_at_top_mm": lengths.cut_away_at_top(at / PLACES),
                "train_at_hem_mm": lengths.at_hem(at / PLACES),
            }
            for at in range(PLACES + 1)
        ]
        return {"longest_mm": lengths.longest_mm, "lengths": rows}

    return reckon


def _gore(gore: Gore) -> Answer:
    return {
        "name": gore.name,
        **_ring(gore.piece),
        "hip_room_mm": gore.hip_room_mm,
        "swell_each_mm": gore.swell_each_mm,
    }


def _ring(ring: RingPiece) -> Answer:
    return {
        "inner_mm": ring.inner_mm,
        "outer_mm": ring.outer_mm,
        "top_mm": ring.top_mm,
        "hem_mm": ring.hem_mm,
        "length_mm": ring.length_mm,
        "top_curve_mm": ring.top_curve_mm,
        "hem_curve_mm": ring.hem_curve_mm,
    }


KINDS: Mapping[str, Kind] = {"circle": _circle, "gores": _gores, "support": _support}
