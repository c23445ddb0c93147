"""What a dossier may hold, and in which order it is printed."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    key: str
    label: str
    holds: str
    is_usual: bool = False


# fmt: off
_SECTIONS = (
    Section(key="outfit", label="Two pages for the outfit", is_usual=True,
            holds="cover picture, order of dressing, what must be worn, measures to retake, what to check"),
    Section(key="garments", label="A sheet for each garment", is_usual=True,
            holds="comparison and chart, the sum behind each girth, alterations to tick off, room to draw"),
    Section(key="measuring", label="Where each measure is taken", holds="the figure, numbered, and how"),
    Section(key="fittings", label="Fittings", holds="what was seen, what was altered, how it turned out"),
    Section(key="routes", label="Routes and why", holds="every route to each pattern with its reasons"),
    Section(key="plates", label="Plates and readings", holds="each plate’s picture, pieces and readings"),
    Section(key="seams", label="Seams and what is not known", holds="how each seam is known, open questions"),
    Section(key="patterns", label="Patterns in hand", holds="those that a garment is made from or could be"),
    Section(key="trials", label="Toiles and miniatures", holds="what was learnt, how near the forecast"),
    Section(key="work", label="Pattern work", holds="the working pattern, version by version; kept sums"),
    Section(key="lays", label="Cloth and lay", holds="what to buy and how the pieces lie on it"),
    Section(key="materials", label="Materials and money", holds="what is there, what to buy, spent and left"),
    Section(key="tasks", label="Tasks and plan", holds="what is left to do, when it must be done"),
    Section(key="log", label="Log", holds="what was done, day by day, with hours, money and photographs"),
    Section(key="photographs", label="Photographs", holds="those of the reference garments, with credit"),
    Section(key="sources", label="Sources", holds="a bibliography of all that the outfit draws on"),
    Section(key="cautions", label="Cautions", holds="those that apply to this outfit"),
    Section(key="dates", label="What each figure dates from", holds="readings, measures, ease, comparisons"),
)
# fmt: on

SECTIONS: Mapping[str, Section] = MappingProxyType({section.key: section for section in _SECTIONS})
USUAL = tuple(section.key for section in _SECTIONS if section.is_usual)


def known(keys: Iterable[str]) -> tuple[str, ...]:
    """The sections named by these keys, each once and in that order; keys that are no longer known are left
    out.
    """
    return tuple(key for key in dict.fromkeys(keys) if key in SECTIONS)


def with_the_others(chosen: Iterable[str]) -> tuple[str, ...]:
    """All sections: those `chosen` in their order, each other one after that which it usually follows."""
    order = list(known(chosen))
    usual = list(SECTIONS)
    for at, key in enumerate(usual):
        if key not in order:
            order.insert(order.index(usual[at - 1]) + 1 if at else 0, key)
    return tuple(order)


def moved(order: Sequence[str], places: Mapping[str, int | None]) -> tuple[str, ...]:
    """`order` with each key at the place typed for it, counted from 1; the others fill what is left.

    None typed, or the place it already has: it is one of the others.
    """
    typed = {key: place for key, place in places.items() if place and place != order.index(key) + 1}
    found = [key for key in order if key not in typed]
    for key in sorted(typed, key=lambda one: (typed[one], order.index(one))):
        found.insert(typed[key] - 1, key)
    return tuple(found)
