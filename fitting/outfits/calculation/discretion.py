"""Words that anybody may read: what a maker wrote, without measures and the names of those dressed.

The text is read in one go, number by number: each stretch of numbers ("10 to 12 1/2") is taken whole, and
only then is it asked what stands behind and before it. So the time it takes grows no faster than the text,
whatever was typed. A fathom of tape may go with the measures: better too much than once too little.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

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
_PART = re.compile(r"[\w'’-]++")


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


# What ends a sentence: a full stop and its like with a space behind, or the end of a line.
_END = re.compile(r"(?<=[.!?…])\s+|\n+")
ERASED = "[erased]"
SOMEBODY = "[the wearer]"


@dataclass(frozen=True, slots=True)
class Stretches:
    """What is looked for and begins with the same word: in any capitals, folded; or as it is written."""

    folded: set[str] = field(default_factory=set)
    as_written: set[str] = field(default_factory=set)
    lengths: set[int] = field(default_factory=set)

    def end(self, text: str, start: int) -> int | None:
        """Where the longest ends that ends where a word does: of Ann Lee, not the Lee of Leeds."""
        for length in sorted(self.lengths, reverse=True):
            stretch = text[start : start + length]
            is_one = stretch in self.as_written or stretch.casefold() in self.folded
            if is_one and not _WORD.match(text, start + length):
                return start + length
        return None


@dataclass(frozen=True, slots=True)
class Names:
    """What to look for of some names, by the first word of each, folded."""

    by_first: Mapping[str, Stretches]

    def places(self, text: str) -> Iterator[tuple[int, int]]:
        """Where they stand, as whole words. The text is gone through once, word by word."""
        at = 0
        for word in _WORD.finditer(text):
            stretches = self.by_first.get(word[0].casefold()) if word.start() >= at else None
            if stretches and (end := stretches.end(text, word.start())):
                yield word.start(), end
                at = end


def names_of(names: Iterable[str], *, parts_as_written: bool) -> Names:
    """Each name in full, whatever its capitals, and each part of it that is longer than a letter.

    Where nobody may be told who it is, parts are looked for in any capitals too. Where words are lost with a
    name, only `parts_as_written`, with a capital: the wearer Rose is not looked for in rose silk.
    """
    whole = {name.strip() for name in names if len(name.strip()) > 1}
    parts = {part for name in whole for part in _PART.findall(name) if len(part) > 1} - whole
    if parts_as_written:
        parts = {part for part in parts if part[0].isupper()}
    by_first: defaultdict[str, Stretches] = defaultdict(Stretches)
    for name in whole | parts:
        if opening := _WORD.search(name):
            stretch, begun = name[opening.start() :], by_first[opening[0].casefold()]
            if parts_as_written and name in parts:
                begun.as_written.add(stretch)
            else:
                begun.folded.add(stretch.casefold())
            # ß is two letters in capitals.
            begun.lengths.update((len(stretch), len(stretch.upper())))
    return Names(by_first)


def is_named(text: str, names: Names) -> bool:
    return any(True for _ in names.places(text))


def without_names(text: str, names: Names, *, instead: str = SOMEBODY) -> str:
    return _with(text, names.places(text), instead)


def words_for_anybody(text: str, names: Iterable[str]) -> str:
    return without_names(without_measures(text), names_of(names, parts_as_written=False))


def sentences_naming(text: str, names: Names) -> list[str]:
    return [text[start:end] for start, end in _sentences(text) if is_named(text[start:end], names)]


def without_sentences(text: str, names: Names) -> str:
    """The text with each sentence that names the person gone, and with it what it says of them."""
    naming = ((start, end) for start, end in _sentences(text) if is_named(text[start:end], names))
    return _with(text, naming, ERASED)


def _with(text: str, places: Iterable[tuple[int, int]], instead: str) -> str:
    kept, at = [], 0
    for start, end in places:
        kept += [text[at:start], instead]
        at = end
    return "".join([*kept, text[at:]])


def _sentences(text: str) -> Iterator[tuple[int, int]]:
    at = 0
    for end in _END.finditer(text):
        yield at, end.start()
        at = end.end()
    yield at, len(text)
