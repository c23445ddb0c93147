"""Patterns in hand against what garments need of them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fitting.outfits.models.garment import Garment
from fitting.outfits.models.pattern import PatternInHand

# Once the cloth is cut no pattern is looked for any more.
BEFORE_CUTTING = (
    Garment.Stage.STUDIED,
    Garment.Stage.ROUTE_CHOSEN,
    Garment.Stage.PATTERNED,
    Garment.Stage.TOILE,
    Garment.Stage.FITTED,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternMatch:
    """A pattern that has at least one part that a garment needs; parts in the garment's words."""

    pattern: PatternInHand
    garment: Garment
    has: tuple[str, ...]
    lacks: tuple[str, ...]


def patterns_for(garment: Garment, patterns: Iterable[PatternInHand]) -> list[PatternMatch]:
    """Those that have most of what it needs first."""
    return sorted(_matches([garment], patterns), key=lambda match: len(match.lacks))


def garments_for(pattern: PatternInHand) -> list[PatternMatch]:
    """Garments of its workroom still to be cut that need a part of it."""
    garments = Garment.objects.of_workroom(pattern.workroom).filter(stage__in=BEFORE_CUTTING)
    return list(_matches(garments.select_related("outfit").exclude(needs_parts=""), [pattern]))


def _matches(garments: Iterable[Garment], patterns: Iterable[PatternInHand]) -> Iterator[PatternMatch]:
    patterns = list(patterns)
    for garment in garments:
        needed = [part.strip() for part in garment.needs_parts.split(",") if part.strip()]
        for pattern in patterns:
            there = pattern.parts_named()
            has = tuple(part for part in needed if part.casefold() in there)
            if has:
                lacks = tuple(part for part in needed if part not in has)
                yield PatternMatch(pattern=pattern, garment=garment, has=has, lacks=lacks)
