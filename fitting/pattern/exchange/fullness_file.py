"""Pleats, tucks, gathers and tiers from JSON: any that are known, for the rest. What `fullness` reads."""

from collections.abc import Callable, Mapping
from dataclasses import asdict
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.workroom.reader.entries import Entry
from fitting.pattern.calculation.fullness import gathers, strips, tiers
from fitting.pattern.calculation.limits import MOST_PARTS, MOST_TIERS
from fitting.pattern.calculation.pleats import Pleat, PleatGivens, pleats
from fitting.pattern.calculation.tucks import TuckGivens, tucks
from fitting.pattern.exchange.sum_file import Answer, Kind, length_if_given, number_if_given

FORMAT = "plate-and-toile fullness"


def _pleats(entry: Entry) -> Callable[[], Answer]:
    """Holds kind (knife, box, inverted, double box, cartridge) and three of finished, flat, number, width,
    depth.
    """
    table = entry.table(("kind", "finished", "flat", "number", "width", "depth"))
    kind = table["kind"].word(Pleat) or Pleat.KNIFE
    known = PleatGivens(
        number=_count(table["number"], MOST_PARTS),
        **{name: length_if_given(table[name]) for name in ("finished", "flat", "width", "depth")},
    )

    def reckon() -> Answer:
        row = pleats(kind, known)
        return asdict(row) | {"ratio": row.ratio, "overlap_mm": row.overlap_mm}

    return reckon


def _tucks(entry: Entry) -> Callable[[], Answer]:
    """Holds three of finished, flat, number, spacing, depth; edge."""
    table = entry.table(("finished", "flat", "number", "spacing", "depth", "edge"))
    known = TuckGivens(
        number=_count(table["number"], MOST_PARTS),
        **{name: length_if_given(table[name]) for name in ("finished", "flat", "spacing", "depth")},
    )
    edge_mm = table["edge"].length("0 in")
    return lambda: asdict(tucks(known, edge_mm=edge_mm))


def _gathers(entry: Entry) -> Callable[[], Answer]:
    """Holds two of finished, flat, ratio; strips with cloth_width, depth, join, round."""
    table = entry.table(("finished", "flat", "ratio", "strips"))
    finished_mm, flat_mm = length_if_given(table["finished"]), length_if_given(table["flat"])
    ratio = number_if_given(table["ratio"])
    cut = table["strips"].table(("cloth_width", "depth", "join", "round"))
    given = {
        "cloth_width_mm": cut["cloth_width"].length(more_than_nothing=True),
        "depth_mm": cut["depth"].length(more_than_nothing=True),
        "join_mm": cut["join"].length("0 in"),
        "is_round": cut["round"].yes_or_no(False),
    } if table["strips"].is_given else None  # fmt: skip

    def reckon() -> Answer:
        made = gathers(finished_mm=finished_mm, flat_mm=flat_mm, ratio=ratio)
        answer = asdict(made) | {"ratio": made.ratio}
        return answer | _strips(made.flat_mm, given) if given else answer

    return reckon


def _strips(flat_mm: float, given: Mapping[str, Any]) -> Answer:
    try:
        return {"strips": asdict(strips(flat_mm, **given))}
    except Faults as faults:
        raise Faults(Fault(f"strips.{fault.where}", fault.sentence) for fault in faults.faults) from faults


def _tiers(entry: Entry) -> Callable[[], Answer]:
    """Holds top, and two of hem, ratio, number."""
    table = entry.table(("top", "hem", "ratio", "number"))
    top_mm, hem_mm = table["top"].length(), length_if_given(table["hem"])
    ratio, number = number_if_given(table["ratio"]), _count(table["number"], MOST_TIERS)

    def reckon() -> Answer:
        made = tiers(top_mm=top_mm, hem_mm=hem_mm, ratio=ratio, number=number)
        return asdict(made) | {"hem_mm": made.hem_mm}

    return reckon


def _count(entry: Entry, most: int) -> int | None:
    return entry.whole(least=1, most=most) if entry.is_given else None


KINDS: Mapping[str, Kind] = {"pleats": _pleats, "tucks": _tucks, "gathers": _gathers, "tiers": _tiers}
