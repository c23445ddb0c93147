"""Bias strips from JSON: from a rectangle, for a length, across a cloth. What `bias` reads."""

from collections.abc import Callable, Mapping
from dataclasses import asdict
from typing import Any

from catalogue.workroom.reader.entries import Entry
from fitting.pattern.calculation.bias import bias_strips, continuous_length_mm, square_for_mm
from fitting.pattern.exchange.sum_file import Answer, Kind

FORMAT = "plate-and-toile bias"


def _rectangle(entry: Entry) -> Callable[[], Answer]:
    """Holds width, length, strip; seam: one strip cut round it, less its joins."""
    given = _lengths(entry, "width", "length", "strip")
    return lambda: {"strip_length_mm": continuous_length_mm(**given)}


def _square(entry: Entry) -> Callable[[], Answer]:
    """Holds total, strip; seam, step: the side that gives that length, up to whole steps."""
    given = _lengths(entry, "total", "strip", step="1 in")
    return lambda: {"side_mm": square_for_mm(**given)}


def _strips(entry: Entry) -> Callable[[], Answer]:
    """Holds total, strip, cloth_width; seam: strips from selvedge to selvedge, joined."""
    given = _lengths(entry, "total", "strip", "cloth_width")
    return lambda: asdict(bias_strips(given.pop("total_mm"), **given))


def _lengths(entry: Entry, *names: str, **defaults: str) -> dict[str, Any]:
    defaults = {"seam": "0 in", **defaults}
    table = entry.table((*names, *defaults))
    return {f"{name}_mm": table[name].length(more_than_nothing=True) for name in names} | {
        f"{name}_mm": table[name].length(text, more_than_nothing=name != "seam")
        for name, text in defaults.items()
    }


KINDS: Mapping[str, Kind] = {"rectangle": _rectangle, "square": _square, "strips": _strips}
