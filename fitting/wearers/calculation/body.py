"""A body as it was measured, and as it is expected inside stays that nobody has worn yet."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from catalogue.lengths.calculation.units import INCH_MM

# Of a body girth: a trained hand, and a measure sent in by the wearer. Our guesses, beside ISO 20685's 9 mm
# allowed between a scan and an expert for large girths.
TRAINED_HAND_MM = 9.525  # 3/8 in
SENT_IN_MM = 15.875  # 5/8 in
# Of a body length, which is taken between two points and gives less: our guesses too.
LENGTH_TRAINED_HAND_MM = 6.35  # 1/4 in
LENGTH_SENT_IN_MM = 9.525  # 3/8 in
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


def expected(girth: BodyMeasure, *, reduction_mm: float) -> BodyMeasure:
    """A girth inside stays that are not made yet: smaller by what they are to take in, and less sure."""
    return BodyMeasure(mm=girth.mm - reduction_mm, doubt_mm=math.hypot(girth.doubt_mm, REDUCTION_DOUBT_MM))
