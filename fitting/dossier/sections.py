"""What a dossier may hold, in the order in which it is printed."""

from collections.abc import Iterable, Mapping
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
    Section(key="routes", label="Routes and why", holds="every route to each pattern with its reasons"),
    Section(key="plates", label="Plates and readings", holds="each plate’s picture, pieces and readings"),
    Section(key="seams", label="Seams and what is not known", holds="how each seam is known, open questions"),
    Section(key="work", label="Pattern work", holds="what was kept: alteration plan, seams, pleats and more"),
    Section(key="lays", label="Cloth and lay", holds="what to buy and how the pieces lie on it"),
    Section(key="photographs", label="Photographs", holds="those of the reference garments, with credit"),
    Section(key="sources", label="Sources", holds="a bibliography of all that the outfit draws on"),
    Section(key="cautions", label="Cautions", holds="those that apply to this outfit"),
    Section(key="dates", label="What each figure dates from", holds="readings, measures, ease, comparisons"),
)
# fmt: on

SECTIONS: Mapping[str, Section] = MappingProxyType({section.key: section for section in _SECTIONS})
USUAL = tuple(section.key for section in _SECTIONS if section.is_usual)


def in_order(keys: Iterable[str]) -> tuple[str, ...]:
    """The sections of these keys as they are printed; a key that is no longer known is left out."""
    chosen = set(keys)
    return tuple(key for key in SECTIONS if key in chosen)
