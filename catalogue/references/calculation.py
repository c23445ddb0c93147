"""What each kind of garment is usually cut in, to start a plate with: pieces, and where they are read.

Common practice, no source: a plate always has the last word, and every row can be changed once it is there.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualPiece:
    name: str
    cut: int = 2
    on_fold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingList:
    """The pieces from centre front to centre back, and the keys of the lines that are read off them."""

    kind: str
    pieces: tuple[UsualPiece, ...]
    lines: tuple[str, ...]


def _pairs(*names: str) -> tuple[UsualPiece, ...]:
    return tuple(UsualPiece(name=name) for name in names)


def _fold(name: str) -> UsualPiece:
    return UsualPiece(name=name, cut=1, on_fold=True)


_BODY = ("bust", "waist", "nape to waist", "front waist")
_ARM = ("upper arm", "wrist", "sleeve")

# fmt: off
_LISTS = (
    CuttingList(kind="bodice", lines=(*_BODY, *_ARM),
                pieces=_pairs("front", "side back", "back", "upper sleeve", "under sleeve")),
    CuttingList(kind="stays", lines=("bust", "waist", "centre front", "underarm to waist"),
                pieces=_pairs("front", "side front", "side", "side back", "back", "shoulder strap")),
    CuttingList(kind="jacket", lines=("bust", "waist", "hip", "nape to waist", "front waist", *_ARM),
                pieces=_pairs("front", "side", "back", "upper sleeve", "under sleeve")),
    CuttingList(kind="gown", lines=(*_BODY, "hem", "skirt front", "skirt back", *_ARM),
                pieces=(*_pairs("front", "back", "upper sleeve", "under sleeve", "skirt front", "skirt side"),
                        _fold("skirt back"))),
    CuttingList(kind="skirt", lines=("waist", "hip", "hem", "skirt front", "skirt side", "skirt back"),
                pieces=(_fold("front gore"), *_pairs("side gore", "back gore"),
                        UsualPiece(name="waistband", cut=1))),
    CuttingList(kind="petticoat", lines=("waist", "hem", "skirt front", "skirt back"),
                pieces=(_fold("front panel"), _fold("back panel"), UsualPiece(name="waistband", cut=1))),
    CuttingList(kind="sleeve", lines=("upper arm", "elbow", "wrist", "sleeve", "inside sleeve"),
                pieces=_pairs("upper sleeve", "under sleeve")),
    CuttingList(kind="shift or shirt", lines=("bust", "hem", "upper arm", "wrist", "nape to hem", "sleeve"),
                pieces=(_fold("front"), _fold("back"), *_pairs("sleeve", "cuff"),
                        UsualPiece(name="collar", cut=1))),
    CuttingList(kind="waistcoat", lines=("bust", "waist", "hip", "nape to waist", "shoulder"),
                pieces=_pairs("forepart", "back")),
    CuttingList(kind="coat", lines=("bust", "waist", "hip", "nape to waist", "nape to hem", *_ARM),
                pieces=(*_pairs("forepart", "side body", "back", "upper sleeve", "under sleeve", "cuff"),
                        _fold("collar"))),
    CuttingList(kind="breeches", lines=("waist", "hip", "thigh", "knee", "rise", "outside leg", "inside leg"),
                pieces=_pairs("front", "back", "waistband", "knee band")),
)
# fmt: on

CUTTING_LISTS: Mapping[str, CuttingList] = MappingProxyType({one.kind: one for one in _LISTS})


_BY_WORD = {word: one for one in _LISTS for word in one.kind.split(" or ")}


def list_for(kind: str) -> CuttingList | None:
    """The list for a garment as a person names it, by the last word that names one: “sleeved waistcoat”."""
    for word in reversed(re.findall(r"\w+", kind.casefold())):
        found = _BY_WORD.get(word) or _BY_WORD.get(word.removesuffix("s"))
        if found:
            return found
    return None
