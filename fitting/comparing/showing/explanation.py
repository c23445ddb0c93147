"""What a comparison says in words: how likely, why in doubt, and how much a stale measure could matter."""

import re
from collections.abc import Mapping
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from catalogue.plates.calculation.sums import page_text
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import FARTHEST_MM, LineComparison, slack
from fitting.comparing.calculation.next_step import UNSETTLED
from fitting.comparing.calculation.route.rules import percent
from fitting.comparing.calculation.verdict import Chances, Verdict
from fitting.comparing.exchange.answer import LineAnswer

# Smallest garment first. The first rules said longer and shorter.
REGIONS = (
    *(tuple(verdict.region for verdict in Chances.verdicts(kind)) for kind in ("girth", "length")),
    ("too small", "longer", "fits", "shorter", "too large"),
)


def words_of(chances: Mapping[str, float]) -> tuple[str, ...]:
    """The regions of a line, smallest garment first, in whatever order a database gave them back."""
    return next((words for words in REGIONS if chances.keys() == set(words)), ())


def likely_words(line: LineAnswer, *, by_older_rules: bool = False) -> str:
    """The chance of the verdict; for an unsettled one, of the likeliest that could be done.

    `line` is its part of an answer: what older rules said of it stays as it was.
    """
    chances, verdict = line.chances, line.verdict
    if not chances:
        return f"gathered {line.ratio:.2f} to 1"
    said = "fits" if verdict == Verdict.FITS_AS_DRAWN else verdict
    if said in chances:
        return percent(chances[said])
    likeliest = max(words_of(chances)[1:4], key=lambda word: chances[word])
    chance = percent(chances[likeliest])
    if likeliest != "fits":
        return f"likeliest {likeliest}, {chance}"
    if by_older_rules or verdict != Verdict.WITHIN_ALTERING:
        return f"likeliest {Verdict.FITS_AS_DRAWN}, {chance}"
    return f"fits, as near as this plate can be read, {chance}"


def measure_sum(origin: Mapping[str, Any], writing: Writing) -> str:
    """How a measure was built up, as a person would write it; empty where it was simply taken."""
    if origin["how"] == "taken":
        return ""
    text = writing.length(origin["taken_mm"])
    if origin["reduction_mm"] is not None:
        text += f" − taken in {writing.length(origin['reduction_mm'])}"
    for layer in origin["layers"]:
        text += f" + {layer['name']} {writing.length(layer['added_mm'])}"
    return f"{text} ≈ {writing.length(origin['mm'])} ± {writing.length(origin['doubt_mm'])}"


def most_doubt_words(line: LineAnswer, case: Case) -> str:
    """Which input the doubt of an unsettled line mostly comes from. `line` is its part of an answer."""
    largest = line.largest_doubt
    if largest is None or line.verdict not in UNSETTLED:
        return ""
    share, source = percent(largest.share), _named(largest.input, case)
    return f"The largest part of the doubt, {share}, comes from {source}."


def finer_words(line: LineComparison, case: Case, writing: Writing) -> str:
    """What a finer rule or a second measure would make of an unsettled line."""
    if line.verdict not in UNSETTLED:
        return ""
    finer, second = line.with_finer_rule(), line.with_second_measure()
    half = page_text(case.plate.rule_division_mm / 2, writing.system)
    return (
        f"Read to {half}: ± {writing.length(finer.u_mm)}, {finer.verdict}."
        f" Measured twice: ± {writing.length(second.u_mm)}, {second.verdict}."
    )


_PIECE = re.compile(r"pieces\[(\d+)]\.readings\.(.+)")
_LENGTH = re.compile(r"lengths\.(.+?)(?:\[\d+])?\.reading")
_OTHERS = {"scale.relative_doubt": "the scale of the plate", "drawing_doubt": "how the plate is drawn"}


def _named(source: str, case: Case) -> str:
    """The input that a path in a case stands for, in words."""
    if found := _PIECE.fullmatch(source):
        return f"the reading of {case.plate.pieces[int(found[1])].name} at {LINES[found[2]].label}"
    if found := _LENGTH.fullmatch(source):
        return f"the reading of {LINES[found[1]].label}"
    return _OTHERS.get(source, "the measure of the body")


def matters_words(line: LineComparison, writing: Writing) -> str:
    """How much it could matter that the measures are stale."""
    if line.chances is None:
        return ""
    least = slack(line)
    ways = [
        f"{word} by {writing.length(mm)}"
        for word, mm in (("grown", least.grown_mm), ("shrunk", least.shrunk_mm))
        if mm is not None
    ]
    if not ways:
        return f"It holds whatever the body has changed by, within {writing.length(FARTHEST_MM)}."
    return f"It changes where the body has {' or '.join(ways)}."
