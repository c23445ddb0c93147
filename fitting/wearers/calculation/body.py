"""A body as it was measured, and as it is over layers that nobody has measured it in yet.

Each layer that lies round a body adds 2π times its thickness to a girth, whatever the girth. Boned stays are
no cloth: they shape the body, and what they add outside is stated, not reckoned from thickness.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from catalogue.lengths.calculation.units import INCH_MM

# Of a body girth: a trained hand, and a measure sent in by the wearer. Our guesses, beside ISO 20685's 9 mm
# allowed between a scan and an expert for large girths.
TRAINED_HAND_MM = 9.525  # 3/8 in
SENT_IN_MM = 15.875  # 5/8 in
# Of a body length, which is taken between two points and gives less: our guesses too.
LENGTH_TRAINED_HAND_MM = 6.35  # 1/4 in
LENGTH_SENT_IN_MM = 9.525  # 3/8 in
# Outside of boned stays over the body inside them; common practice, no source.
BONED_MM = 1.5 * INCH_MM
BONED_DOUBT_MM = 0.5 * INCH_MM
# Cloth gives under a tape by an amount nobody knows: a quarter of what it adds, our guess.
CLOTH_RELATIVE_DOUBT = 0.25
# How far stays will truly lace in is known once they are worn: our guess.
REDUCTION_DOUBT_MM = 0.75 * INCH_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMeasure:
    mm: float
    doubt_mm: float = TRAINED_HAND_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The wearer over what is worn beneath: `state` says what that is, `stale` why it may no longer hold."""

    state: str = ""
    girths: Mapping[str, BodyMeasure]
    lengths: Mapping[str, BodyMeasure] = field(default_factory=dict)
    stale: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A garment worn beneath: thickness of its cloth as it lies, how many layers of it, gathered by how much.

    A gathered band lies in as many layers as its ratio says.
    """

    name: str
    thickness_mm: float = 0.0
    layers: int = 1
    gather_ratio: float = 1.0
    is_boned: bool = False

    @property
    def added_mm(self) -> float:
        """What it adds to a girth."""
        if self.is_boned:
            return BONED_MM
        return 2 * math.pi * self.thickness_mm * self.layers * self.gather_ratio

    @property
    def doubt_mm(self) -> float:
        return BONED_DOUBT_MM if self.is_boned else CLOTH_RELATIVE_DOUBT * self.added_mm


def over_layers(girth: BodyMeasure, layers: Iterable[Layer]) -> BodyMeasure:
    """A girth built up over what is worn beneath, with the doubt of every layer."""
    worn = tuple(layers)
    return BodyMeasure(
        mm=girth.mm + sum(layer.added_mm for layer in worn),
        doubt_mm=math.hypot(girth.doubt_mm, *(layer.doubt_mm for layer in worn)),
    )


def expected(girth: BodyMeasure, *, reduction_mm: float) -> BodyMeasure:
    """A girth inside stays that are not made yet: smaller by what they are to take in, and less sure."""
    return BodyMeasure(mm=girth.mm - reduction_mm, doubt_mm=math.hypot(girth.doubt_mm, REDUCTION_DOUBT_MM))
