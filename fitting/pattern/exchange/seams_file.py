"""Edges that are sewn together, from JSON: their difference, and notches along both. What `seams` reads."""

from collections.abc import Callable, Mapping

from catalogue.workroom.reader.entries import Entry
from fitting.pattern.calculation.seam_match import SeamMatch, Stretch, notches, sleeve_seam
from fitting.pattern.exchange.sum_file import Answer, Kind, length_if_given, number_if_given

FORMAT = "plate-and-toile seams"
SLEEVE = ("head_front", "head_back", "armhole_front", "armhole_back")
MAY_BE = ("ease_front", "ease_back", "gathered", "gathered_into", "head_under", "armhole_under")


def _seam(entry: Entry) -> Callable[[], Answer]:
    """Holds stretches with name, first, second, ease or ratio; notches_every."""
    table = entry.table(("stretches", "notches_every"))
    rows = table["stretches"].items()
    if not rows and not entry.notes.faults:
        table["stretches"].fault("Give at least one stretch, with the lengths of both its edges.")
    stretches = tuple(_stretch(row, at) for at, row in enumerate(rows, start=1))
    every_mm = length_if_given(table["notches_every"])
    return lambda: _told(SeamMatch(name="seam", stretches=stretches), every_mm)


def _stretch(entry: Entry, at: int) -> Stretch:
    table = entry.table(("name", "first", "second", "ease", "ratio"))
    if "ease" in table and "ratio" in table:
        entry.fault("A stretch is eased or gathered: give one of the two.")
    return Stretch(
        name=table["name"].text(f"stretch {at}") or "",
        longer_mm=table["first"].length(more_than_nothing=True),
        shorter_mm=table["second"].length(more_than_nothing=True),
        ease_mm=table["ease"].length("0 in", signed=True),
        ratio=number_if_given(table["ratio"]),
    )


def _sleeve(entry: Entry) -> Callable[[], Answer]:
    """Holds head_front, head_back, armhole_front, armhole_back; ease_front, ease_back, gathered,
    gathered_into, head_under, armhole_under, notches_every.
    """
    table = entry.table((*SLEEVE, *MAY_BE, "notches_every"))
    given = {f"{name}_mm": table[name].length() for name in SLEEVE}
    given |= {f"{name}_mm": table[name].length("0 in") for name in MAY_BE}
    every_mm = length_if_given(table["notches_every"])
    return lambda: _told(sleeve_seam(**given), every_mm)


def _told(seam: SeamMatch, every_mm: float | None) -> Answer:
    return {
        "first_mm": seam.longer_mm,
        "second_mm": seam.shorter_mm,
        "difference_mm": seam.longer_mm - seam.shorter_mm,
        "stretches": [
            {
                "name": one.name,
                "first_mm": one.longer_mm,
                "second_mm": one.shorter_mm,
                "off_mm": one.off_mm,
                "joined": one.joined.value,
            }
            for one in seam.stretches
        ],
        "notches": [
            {"first_mm": one.on_longer_mm, "second_mm": one.on_shorter_mm}
            for one in notches(seam, every_mm=every_mm)
        ],
    }


KINDS: Mapping[str, Kind] = {"seam": _seam, "sleeve": _sleeve}
