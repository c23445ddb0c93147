"""Garments laid side by side: proportions that tell a cut whatever its size, and pieces by their role.

Which proportions are worth looking at is common practice, no source.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from catalogue.lengths.calculation.doubt import Doubtful, u_of, value_of
from catalogue.plates.calculation.findings import Finding
from catalogue.plates.calculation.seam_order import BODY, part_of

COVERAGE = 2.0  # as where a plate is held against its museum's figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    label: str
    first: str
    second: str
    kind: Literal["difference", "ratio"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A length or a difference in mm, or a ratio, with its standard uncertainty in the same."""

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


def proportions_of(proportion: Proportion, found: Mapping[str, Finding]) -> tuple[Quantity, ...]:
    """The proportion of two lines of a garment: empty where one is not read.

    While the allowance is not known there are two values, without one and with one.

    An error that both lines share, as that of the scale, leaves their ratio.
    """
    first, second = (found.get(line) for line in (proportion.first, proportion.second))
    if first is None or second is None:
        return ()
    pairs = [(first.full_size, second.full_size)]
    if first.if_included and second.if_included:
        pairs.append((first.if_included, second.if_included))
    values: list[Doubtful] = [
        a.value - b.value if proportion.kind == "difference" else a.value / b.value
        for a, b in pairs
        if b.mm > 0
    ]
    return tuple(Quantity(value=value_of(value), u=u_of(value)) for value in values)


def measures_of(finding: Finding) -> tuple[Quantity, ...]:
    """A girth or length in mm; while the allowance is not known, what it is with one as well."""
    both = [finding.full_size, finding.if_included] if finding.if_included else [finding.full_size]
    return tuple(Quantity(value=one.mm, u=one.u_mm) for one in both)


def are_apart(garments: Sequence[Sequence[Quantity]]) -> bool:
    """Whether any two garments differ by more than their doubt explains, whichever way each is taken."""
    return any(
        all(
            abs(a.value - b.value) > COVERAGE * math.hypot(a.u, b.u)
            # From one end of a garment's two to the other anything is possible.
            and (a.value - b.value) * (one[0].value - other[0].value) > 0
            for a in one
            for b in other
        )
        for one, other in combinations(filter(None, garments), 2)
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
