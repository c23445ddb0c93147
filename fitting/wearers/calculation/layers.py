"""What a garment worn beneath adds to a girth: where it lies, and how thick it is there.

Each thickness of cloth that lies round a body adds 2π times itself to a girth, whatever the girth; what
covers only part of the way round adds its angle times its thickness. Boned stays are no cloth: they shape the
body, and what they add outside is stated, not reckoned from thickness.
"""

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.lengths.calculation.units import INCH_MM
from fitting.wearers.calculation.body import BodyMeasure

# Outside of boned stays over the body inside them; common practice, no source.
BONED_MM = 1.5 * INCH_MM
BONED_DOUBT_MM = 0.5 * INCH_MM
# Cloth gives under a tape by an amount nobody knows: half of what it adds, our guess.
CLOTH_RELATIVE_DOUBT = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerKind:
    """A kind of garment, the levels that it covers, and the band that it hangs from.

    `is_tied`: tapes that may press in as much as the cloth adds. `arc`: the share of the way round that it
    covers. `must_be_taped_over`: hoops and bustles stand away from the body by what no thickness tells.
    """

    key: str
    covers: tuple[str, ...]
    band: str = ""
    words: str = ""
    is_tied: bool = False
    must_be_taped_over: bool = False
    arc: float = 1.0


_BODY = ("high bust", "bust", "under bust", "waist")
_ARM = ("upper arm", "elbow", "wrist")

# Where each kind usually lies: common practice, no source; each garment can say otherwise.
# fmt: off
LAYER_KINDS: Mapping[str, LayerKind] = {kind.key: kind for kind in (
    LayerKind(key="shift or shirt", covers=(*_BODY, "hip", "thigh", "knee", "upper arm", "elbow"),
              words="shift shirt chemise smock"),
    LayerKind(key="stays or corset", covers=("bust", "under bust", "waist", "hip"),
              words="stay corset bodies pair-of-bodies"),
    LayerKind(key="drawers", covers=("waist", "hip", "thigh", "knee"), band="waist", is_tied=True,
              words="drawer pantalette"),
    LayerKind(key="trousers or breeches", covers=("waist", "hip", "thigh", "knee"), band="waist",
              words="trouser breeche breech pantaloon"),
    LayerKind(key="petticoat", covers=("waist", "hip"), band="waist", is_tied=True,
              words="petticoat underskirt"),
    LayerKind(key="skirt", covers=("waist", "hip"), band="waist", words="skirt overskirt"),
    LayerKind(key="apron", covers=("waist", "hip"), band="waist", is_tied=True, arc=0.5, words="apron"),
    LayerKind(key="pad or bum roll", covers=("hip",), is_tied=True, arc=0.5, words="pad roll rump"),
    LayerKind(key="hoop or bustle", covers=("waist", "hip"), band="waist", is_tied=True,
              must_be_taped_over=True, words="hoop bustle crinoline crinolette pannier farthingale cage"),
    LayerKind(key="bodice", covers=(*_BODY, *_ARM), words="bodice spencer"),
    LayerKind(key="jacket", covers=(*_BODY, "hip", *_ARM), words="jacket caraco pet-en-l'air"),
    LayerKind(key="waistcoat", covers=(*_BODY, "hip"), words="waistcoat vest jump"),
    LayerKind(key="gown", covers=(*_BODY, "hip", *_ARM), words="gown dress robe mantua"),
    LayerKind(key="coat", covers=("neck", *_BODY, "hip", *_ARM),
              words="coat greatcoat overcoat cloak redingote"),
    LayerKind(key="kerchief", covers=("neck base", "high bust"), words="kerchief fichu tucker neckerchief"),
    LayerKind(key="neckcloth", covers=("neck",), words="neckcloth cravat stock collar"),
    LayerKind(key="stockings", covers=("knee", "calf", "ankle"), words="stocking hose"),
    LayerKind(key="head or hands", covers=("head", "hand"), words="cap hat bonnet glove mitt"),
)}
# fmt: on
_BY_WORD = {word: kind for kind in LAYER_KINDS.values() for word in kind.words.split()}


def layer_kind_named(words: str) -> LayerKind | None:
    """The kind that a garment is by its name, by the last word that names one: “gown petticoat”."""
    for word in reversed(re.findall(r"[\w'’-]+", words.casefold())):
        if kind := _BY_WORD.get(word) or _BY_WORD.get(word.removesuffix("s")):
            return kind
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A garment as it lies at one level: `thicknesses` of its cloth, over `arc` of the way round.

    `is_own`: the garment that is being made. Its pattern lies in the middle of its own cloth.
    """

    name: str
    thickness_mm: float = 0.0
    thicknesses: float = 1.0
    arc: float = 1.0
    is_boned: bool = False
    is_own: bool = False
    is_tied: bool = False

    @property
    def added_mm(self) -> float:
        """What it adds to a girth."""
        if self.is_boned and not self.is_own:
            return BONED_MM
        turn = math.pi if self.is_own else 2 * math.pi
        return turn * self.arc * self.thickness_mm * self.thicknesses

    @property
    def doubt_mm(self) -> float:
        return BONED_DOUBT_MM if self.is_boned and not self.is_own else CLOTH_RELATIVE_DOUBT * self.added_mm


def thicknesses_at(
    *,
    layers: int,
    gather_ratio: float,
    has_band: bool,
    is_at_band: bool,
    is_gauged: bool,
    widening: float = 1.0,
) -> float:
    """How many thicknesses of its cloth lie at a level.

    At its band: the band's own `layers` and the cloth gathered into it; gauged and cartridge-pleated cloth
    stands outside its band. Away from it, the fullness there: `widening` is its girth over that of the band.
    """
    if gather_ratio <= 1:
        return layers
    if is_at_band:
        return layers + (0.0 if is_gauged else gather_ratio)
    return max(1.0, gather_ratio / widening) * (1 if has_band else layers)


def over_layers(girth: BodyMeasure, layers: Iterable[Layer]) -> BodyMeasure:
    """A girth built up over what is worn beneath, with the doubt of every layer."""
    worn = tuple(layers)
    return BodyMeasure(
        mm=girth.mm + sum(layer.added_mm for layer in worn),
        doubt_mm=math.hypot(girth.doubt_mm, *(layer.doubt_mm for layer in worn)),
    )
