"""Garments laid side by side: proportions that tell a cut whatever its size, and pieces by their role.

Which proportions are worth looking at is common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from catalogue.measuring.doubt import Doubtful, u_of, value_of
from catalogue.measuring.findings import Finding
from catalogue.measuring.seam_order import BODY, part_of

COVERAGE = 2.0  # as where a plate is held against its museum's figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    label: str
    first: str
    second: str
    kind: Literal["difference", "ratio"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportioned:
    """A difference in mm or a ratio, with its standard uncertainty in the same."""

    value: float
    u: float


# fmt: off
PROPORTIONS = (
    Proportion(label="bust − waist", first="bust", second="waist", kind="difference"),
    Proportion(label="hip − waist", first="hip", second="waist", kind="difference"),
    Proportion(label="back length ÷ waist", first="nape to waist", second="waist", kind="ratio"),
    Proportion(label="front waist ÷ back length", first="front waist", second="nape to waist", kind="ratio"),
    Proportion(label="across back ÷ bust", first="across back", second="bust", kind="ratio"),
    Proportion(label="upper arm ÷ bust", first="upper arm", second="bust", kind="ratio"),
    Proportion(label="sleeve ÷ back length", first="sleeve", second="nape to waist", kind="ratio"),
    Proportion(label="hem ÷ waist", first="hem", second="waist", kind="ratio"),
)
# fmt: on


def proportion_of(proportion: Proportion, found: Mapping[str, Finding]) -> Proportioned | None:
    """None where either line was not read. An error that both share, as the scale, leaves their ratio."""
    first, second = (found.get(line) for line in (proportion.first, proportion.second))
    if first is None or second is None or second.full_size.mm <= 0:
        return None
    a, b = first.full_size.value, second.full_size.value
    value: Doubtful = a - b if proportion.kind == "difference" else a / b
    return Proportioned(value=value_of(value), u=u_of(value))


def is_apart(values: list[tuple[float, float]]) -> bool:
    """Whether any two of these, each with its standard uncertainty, differ by more than that explains."""
    return any(
        abs(a - b) > COVERAGE * (u_a**2 + u_b**2) ** 0.5
        for place, (a, u_a) in enumerate(values)
        for b, u_b in values[place + 1 :]
    )


# Of a body; what belongs to sleeves and skirts is told apart before. Read top to bottom.
_OF_BODY = (("side", ("side",)), ("back", ("back",)), ("front", ("front", "forepart")))
ROLES = ("front", "side", "back", "body", "sleeve", "skirt", "set on")


def role_of(name: str) -> str:
    """What a piece of this name does in a garment, one of ROLES: a side back is a side."""
    part = part_of(name)
    if part != BODY:
        return part or "set on"
    words = name.casefold()
    return next((role for role, signs in _OF_BODY if any(sign in words for sign in signs)), BODY)
