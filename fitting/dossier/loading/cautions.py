"""The cautions that apply to an outfit, and to which of its garments. They defer to those trained for it."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from fitting.outfits.models.garment import Garment

_WIDE = re.compile(r"\b(skirt|petticoat|gown|dress|hoop|crinoline|bustle|cloak|train)s?\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """`short` stands on the sheet of a garment that it applies to; empty: in the section alone."""

    key: str
    title: str
    text: str
    short: str = ""


# Gau's figures are those of sixteen reenactors: C. R. Gau, PhD thesis, Iowa State University, 1998.
_CAUTIONS = (
    Caution(
        key="lacing",
        title="Reducing the waist",
        short="Lace slowly; stop on pain, numbness or short breath. Ill or pregnant: ask a doctor first.",
        text="Reenactors laced 3 in under their waist lost 9 % of the breath drawn at rest on average, 2 to "
        "29 % (Gau, PhD thesis, Iowa State University, 1998). Above a tenth of the waist, or 3 in for "
        "somebody new to it, take care. Lace slowly, over weeks rather than in a day; unlace on pain, "
        "numbness or short breath. With any illness, or when pregnant, ask a doctor first.",
    ),
    Caution(
        key="surviving",
        title="Surviving garments",
        text="A surviving garment is not worn or stretched. Old dyes, dressings and hat felts can hold "
        "arsenic, mercury or lead: wear gloves, and ask a conservator before handling.",
    ),
    Caution(
        key="fire",
        title="Fire",
        short="Wide or loose cloth burns: keep it from flame.",
        text="Wide skirts, hoops and loose cotton or net catch fire easily and burn fast. Keep from candles, "
        "stoves and open hearths; on a stage follow the local fire rules and whoever answers for them.",
    ),
    Caution(
        key="pins",
        title="Pins and needles",
        text="Count pins before and after a fitting; look for those that fell. Put a broken needle, every "
        "piece of it, where nobody can step on it. Nobody sits down in a pinned garment.",
    ),
    Caution(
        key="personal",
        title="Measures are personal",
        text="What stands here of a body is the wearer’s to see, to take away and to have erased. Keep these "
        "pages where only those who need them can read them, and destroy them when they are done with.",
    ),
)
CAUTIONS: Mapping[str, Caution] = {caution.key: caution for caution in _CAUTIONS}


def _draws_on_a_survivor(garment: Garment) -> bool:
    """A museum or an owner is named for what it is taken from."""
    references = [link.reference for link in garment.references.all()]
    if garment.plate:
        references.append(garment.plate.reference)
    return any(reference.holder or reference.accession for reference in references)


def _is_wide(garment: Garment) -> bool:
    kinds = [link.reference.kind for link in garment.references.all()]
    return any(_WIDE.search(words) for words in (garment.name, *kinds))


_APPLIES: Mapping[str, Callable[[Garment], bool]] = {
    "lacing": lambda garment: garment.is_boned or bool(garment.reduction_um),
    "surviving": _draws_on_a_survivor,
    "fire": _is_wide,
    "pins": lambda garment: True,
}


def cautions_for(garment: Garment) -> tuple[Caution, ...]:
    return tuple(CAUTIONS[key] for key, applies in _APPLIES.items() if applies(garment))


def cautions_of(
    garments: Sequence[Garment], *, has_wearer: bool
) -> tuple[tuple[Caution, tuple[str, ...]], ...]:
    """The cautions that apply, each with the garments that it is about."""
    found = [
        (CAUTIONS[key], tuple(garment.name for garment in garments if applies(garment)))
        for key, applies in _APPLIES.items()
    ]
    # Said of every garment it says nothing of any.
    applying = [(caution, names if len(names) < len(garments) else ()) for caution, names in found if names]
    personal = [(CAUTIONS["personal"], ())] if has_wearer else []
    return (*applying, *personal)


def short_cautions(garment: Garment) -> Iterable[str]:
    return [caution.short for caution in cautions_for(garment) if caution.short]
