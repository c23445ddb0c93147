"""What the boxes of the quick comparison hold to begin with: plain defaults, or an example to try."""

from collections.abc import Mapping
from types import MappingProxyType

# How many rows of each kind there are: the box that says so, and the most that a page can hold.
COUNTS = {"level": ("levels", 8), "piece": ("pieces", 24), "length": ("lengths", 12)}

# What a new row holds.
FRESH: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "level": {"line": "", "fit": "fitted"},
        "piece": {"cut": "2"},
        "length": {"line": "", "crossed_ends": "0"},
    }
)

# What the records are called where nobody says otherwise.
NAMES: Mapping[str, str] = MappingProxyType(
    {
        "reference": "Garment on the plate",
        "wearer": "Wearer",
        "outfit": "New outfit",
        "garment": "Garment",
    }
)

_PLATE = {
    "scale": "1:8",
    "read_from": "book",
    "allowance": "none",
    "rule": "1/16 in",
    "state": "over stays",
    "purpose": "this garment",
}


def _rows(kind: str, *rows: Mapping[str, str]) -> dict[str, str]:
    boxes = {
        f"{kind}-{at}-{name}": text
        for at, row in enumerate(rows)
        for name, text in (FRESH[kind] | row).items()
    }
    return {COUNTS[kind][0]: str(len(rows)), **boxes}


DEFAULTS: Mapping[str, str] = MappingProxyType(
    _PLATE
    | _rows("level", {"line": "bust"}, {"line": "waist"}, {"line": "hip"})
    | _rows("piece", {"name": "front"}, {"name": "back"}, {})
    | _rows("length", {"line": "nape to waist"})
)

# A back-laced bodice of our own, small enough to follow by hand: its waist comes to 24 1/2 in.
EXAMPLE: Mapping[str, str] = MappingProxyType(
    _PLATE
    | {"rule": "1/32 in"}
    | _rows(
        "level",
        {"line": "bust", "gap": "1 in", "body": "33 1/2 in", "ease": "1/2 in"},
        {"line": "waist", "gap": "1/2 in", "body": "25 in", "ease": "0 in"},
    )
    | _rows(
        "piece",
        {"name": "front", "reading_0": "1 1/16 in", "reading_1": "13/16 in", "take_up_1": "1/16 in"},
        {"name": "side back", "reading_0": "1/2 in", "reading_1": "3/8 in"},
        {"name": "back", "reading_0": "13/32 in", "reading_1": "3/8 in"},
    )
    | _rows("length", {"line": "nape to waist", "reading": "1 7/8 in", "body": "15 in", "ease": "0 in"})
)
