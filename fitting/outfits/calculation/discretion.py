"""Words that anybody may read: what a maker wrote, without measures and the names of those dressed.

The text is read in one go, number by number: each stretch of numbers ("10 to 12 1/2") is taken whole, and
only then is it asked what stands behind and before it. So the time it takes grows no faster than the text,
whatever was typed. A fathom of tape may go with the measures: better too much than once too little.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from catalogue.lengths.calculation.levels import LINES

_WORDS = (
    "half|quarter|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    "|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred"
)
_SIGNS = "½⅓⅔¼¾⅛⅜⅝⅞"
_NUMBER = rf"(?:\d++(?:[.,/]\d++)*+(?:\s?[{_SIGNS}])?+|[{_SIGNS}]|\b(?:{_WORDS})\b)"
# What is once taken is never given back (++, *+): a stretch without a unit must not be tried again in parts.
_NUMBERS = re.compile(
    rf"(?:[±+−-]\s?+)?{_NUMBER}(?:[\s-]*+(?:(?:and|of|to|×|x|–)[\s-]*+)?{_NUMBER})*+", re.IGNORECASE
)
_UNIT = re.compile(
    r"[\s-]?(?:inch(?:es)?|ins?\b(?! the\b| a\b)|cms?\b|mms?\b|centimet(?:re|er)s?|millimet(?:re|er)s?"
    r"|feet\b|foot\b|ft\b|[\"″”'′’](?!\w))",
    re.IGNORECASE,
)
_LEVEL = "|".join(sorted({re.escape(word) for line in LINES.values() for word in line.label.split(" or ")}))
_OF_A_LEVEL = re.compile(
    rf"\W++(?:(?:at|round|over|for|of|the|her|his|their)\W++){{0,2}}(?:{_LEVEL})\b", re.IGNORECASE
)
_LEVEL_BEFORE = re.compile(
    rf"\b(?:{_LEVEL})\b(?:[^\w.;]++[a-z]++){{0,2}}+[^\w.;]++(?=[\d{_SIGNS}])", re.IGNORECASE
)

_WORD = re.compile(r"\w++")


def without_measures(text: str) -> str:
    """Without any number that has a unit of length behind it, or the name of a level close by."""
    kept, at = [], 0
    behind_a_level = [match.end() for match in _LEVEL_BEFORE.finditer(text)][::-1]
    for numbers in _NUMBERS.finditer(text):
        while behind_a_level and behind_a_level[-1] < numbers.start():
            behind_a_level.pop()
        unit = _UNIT.match(text, numbers.end())
        # “One hip” is no measure: beside a level, only figures are.
        in_figures = numbers[0][-1].isdecimal() or numbers[0][-1] in _SIGNS
        at_a_level = bool(behind_a_level) and behind_a_level[-1] < numbers.end()
        if unit or at_a_level or (in_figures and _OF_A_LEVEL.match(text, numbers.end())):
            kept += [text[at : numbers.start()], "[a measure]"]
            at = unit.end() if unit else numbers.end()
    return "".join([*kept, text[at:]])


def without_names(text: str, names: Iterable[str]) -> str:
    """`names` in full; each part of a name that is longer than a letter goes with it."""
    by_first: defaultdict[str, set[str]] = defaultdict(set)
    for part in {part for name in names for part in (name, *name.split()) if len(part) > 1}:
        if opening := _WORD.search(part):
            by_first[opening[0].casefold()].add(part[opening.start() :].casefold())
    lengths = {first: sorted({len(part) for part in parts})[::-1] for first, parts in by_first.items()}
    kept, at = [], 0
    for word in _WORD.finditer(text):
        start, first = word.start(), word[0].casefold()
        if start < at or first not in lengths:
            continue
        ends = (start + length for length in lengths[first])
        found = (end for end in ends if text[start:end].casefold() in by_first[first])
        # The longest that ends where a word ends: of Ann Lee, not the Lee of Leeds.
        if end := next((end for end in found if not _WORD.match(text, end)), None):
            kept += [text[at:start], "[the wearer]"]
            at = end
    return "".join([*kept, text[at:]])


# What ends a sentence: a full stop and its like with a space behind, or the end of a line.
_END = re.compile(r"(?<=[.!?…])\s+|\n+")
Patterns = Sequence[re.Pattern[str]]
ERASED = "[erased]"
SOMEBODY = "[the wearer]"


def patterns_of(names: Iterable[str]) -> Patterns:
    """One for each name in full, whatever its capitals, and for each part of it that is written with one.

    Parts are told by their capital: the wearer Rose is not looked for in rose silk.
    """
    whole = {name.strip() for name in names if len(name.strip()) > 1}
    parts = {part for name in whole for part in re.findall(r"[\w'’-]+", name) if len(part) > 1}
    capital = sorted(part for part in parts if part[0].isupper() and part not in whole)
    return [
        *(_word(name, re.IGNORECASE) for name in sorted(whole, key=len, reverse=True)),
        *(_word(part, re.NOFLAG) for part in capital),
    ]


def is_named(text: str, patterns: Patterns) -> bool:
    return any(pattern.search(text) for pattern in patterns)


def sentences_naming(text: str, patterns: Patterns) -> list[str]:
    return [text[start:end] for start, end in _sentences(text) if is_named(text[start:end], patterns)]


def without_sentences(text: str, patterns: Patterns) -> str:
    """The text with each sentence that names the person gone, and with it what it says of them."""
    kept, at = [], 0
    for start, end in _sentences(text):
        if is_named(text[start:end], patterns):
            kept += [text[at:start], ERASED]
            at = end
    return "".join([*kept, text[at:]])


def with_another_name(text: str, patterns: Patterns, name: str = SOMEBODY) -> str:
    for pattern in patterns:
        text = pattern.sub(lambda _: name, text)
    return text


def _word(name: str, flags: re.RegexFlag) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", flags)


def _sentences(text: str) -> Iterator[tuple[int, int]]:
    at = 0
    for end in _END.finditer(text):
        yield at, end.start()
        at = end.end()
    yield at, len(text)
