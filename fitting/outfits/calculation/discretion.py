"""Words that anybody may read: what a maker wrote, without measures and the names of those dressed."""

import re
from collections.abc import Iterable

from catalogue.lengths.calculation.levels import LINES

# Any figure with a unit that a body is measured in, in digits or in words, and any figure close behind the
# name of a level. A fathom of tape may go with it: better too much than once too little.
_WORDS = (
    "half|quarter|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    "|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred"
)
_DIGITS = r"(?:\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?(?:/\d+)?\s?[½⅓⅔¼¾⅛⅜⅝⅞]?|[½⅓⅔¼¾⅛⅜⅝⅞])"
_NUMBER = rf"(?:{_DIGITS}|\b(?:{_WORDS})\b)"
_UNIT = (
    r"(?:inch(?:es)?|ins?\b(?! the\b| a\b)|cms?\b|mms?\b|centimet(?:re|er)s?|millimet(?:re|er)s?"
    r"|feet\b|foot\b|ft\b|[\"″”'′’](?!\w))"
)
_LEVELS = "|".join(sorted({re.escape(word) for line in LINES.values() for word in line.label.split(" or ")}))
_MEASURE = re.compile(
    rf"(?:[±+−-]\s?)?{_NUMBER}(?:[\s-]*(?:and|of|to|×|x|–)?[\s-]*{_NUMBER})*[\s-]?{_UNIT}"
    rf"|\b\d+(?:[.,/ ]\d+)*(?=\W+(?:(?:at|round|over|for|of|the|her|his|their)\W+){{0,2}}(?:{_LEVELS})\b)",
    re.IGNORECASE,
)
_AT_A_LEVEL = re.compile(rf"(\b(?:{_LEVELS})\b(?:[^\w.;]+[a-z]+){{0,2}}[^\w.;]+){_DIGITS}", re.IGNORECASE)


def without_measures(text: str) -> str:
    return _AT_A_LEVEL.sub(r"\1[a measure]", _MEASURE.sub("[a measure]", text))


def without_names(text: str, names: Iterable[str]) -> str:
    """`names` in full; each part of a name that is longer than a letter goes with it."""
    parts = {part for name in names for part in (name, *name.split()) if len(part) > 1}
    pattern = "|".join(rf"\b{re.escape(part)}\b" for part in sorted(parts, key=len, reverse=True))
    return re.sub(pattern, "[the wearer]", text, flags=re.IGNORECASE) if pattern else text
