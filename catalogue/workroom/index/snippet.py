"""The place in a text that answers the words looked for, cut out with the words marked.

Runs, not markup: the template escapes the text and puts the marks.
"""

import re
from collections import Counter
from dataclasses import dataclass
from functools import cache

from catalogue.workroom.index.words import LONGEST_TEXT, fold, is_begun_by

BEFORE, LONGEST = 50, 200
# A letter's own marks, which are no part of \w, stay with it.
_WORD = re.compile(r"(?:[^\W_][\u0300-\u036f]*)+")


@dataclass(frozen=True, slots=True)
class Run:
    text: str
    is_marked: bool


def snippet(text: str, words: tuple[str, ...], *, longest: int = LONGEST) -> list[Run]:
    """The part of `text` that holds most of `words`, in runs marked or plain. Empty: none is in it."""
    answers = cache(lambda written: _answered(written, words))
    hits = [
        (match.start(), match.end(), answered)
        for match in _WORD.finditer(text, 0, LONGEST_TEXT)
        if (answered := answers(match[0]))
    ]
    if not hits:
        return []
    first, last = _window(text, hits, longest)
    runs = [Run("… ", False)] if first else []
    at = first
    for start, end, _ in hits:
        if first <= start and end <= last:
            runs += [Run(text[at:start], False), Run(text[start:end], True)]
            at = end
    return [
        run for run in (*runs, Run(text[at:last] + (" …" if last < len(text) else ""), False)) if run.text
    ]


def _answered(written: str, words: tuple[str, ...]) -> frozenset[str]:
    parts = fold(written)
    return frozenset(word for word in words if any(is_begun_by(part, word) for part in parts))


def _window(text: str, hits: list[tuple[int, int, frozenset[str]]], longest: int) -> tuple[int, int]:
    """The stretch, from a word's start to a word's end, in which most of the words meet."""

    start, most, within = hits[0][0], 0, Counter[str]()
    last_in = 0  # of the hits before it, those from `at` on lie within reach of `at`
    for at, (begins, _, answered) in enumerate(hits):
        while last_in < len(hits) and hits[last_in][1] <= begins + longest - BEFORE:
            within.update(hits[last_in][2])
            last_in += 1
        if len(within) > most:
            start, most = begins, len(within)
        if last_in > at:
            within -= Counter(answered)  # which drops what is met no more
        else:
            last_in = at + 1
    first = max(0, start - BEFORE)
    last = min(len(text), first + longest)
    if first:
        first = text.find(" ", first, start) + 1 or start
    if last < len(text):
        last = text.rfind(" ", start, last) if " " in text[start:last] else last
    return first, last
