"""Labels that keep off each other."""

import math
from collections.abc import Sequence


def kept_apart(
    wanted: Sequence[float], sizes: Sequence[float], *, low: float = -math.inf, high: float = math.inf
) -> list[float]:
    """The middles of labels along one line, moved the least from those wanted so that none overlap.

    The sum of the squares of their moves is the least that their order allows: those that would meet stand
    side by side about the middle of what they want (isotonic regression by pooling; common practice, no
    source). All stay between `low` and `high`; where there is no room for that they begin at `low`.
    """
    blocks: list[tuple[list[int], float]] = []  # labels side by side, and where the row of all would begin
    middles = [0.0] * len(wanted)
    whole = 0.0
    for at in sorted(range(len(wanted)), key=lambda label: wanted[label]):
        middles[at] = whole + sizes[at] / 2
        whole += sizes[at]
        members, start = [at], wanted[at] - middles[at]
        while blocks and blocks[-1][1] > start:
            before, theirs = blocks.pop()
            start = (len(before) * theirs + len(members) * start) / (len(before) + len(members))
            members = before + members
        blocks.append((members, start))
    for members, start in blocks:
        for at in members:
            middles[at] += max(low, min(start, high - whole))
    return middles


def kept_apart_in_columns(
    spans: Sequence[tuple[float, float]], wanted: Sequence[float], sizes: Sequence[float], *,
    low: float = -math.inf, high: float = math.inf,
) -> list[float]:  # fmt: skip
    """The same where labels lie all over a drawing: only those move whose spans the other way meet.

    `spans`: from where to where each reaches across. Labels that meet through others are of one column.
    """
    columns: list[list[int]] = []
    end = -math.inf
    for at in sorted(range(len(spans)), key=lambda label: spans[label]):
        if spans[at][0] >= end:
            columns.append([])
        columns[-1].append(at)
        end = max(end, spans[at][1])
    middles = list(wanted)
    for column in columns:
        placed = kept_apart([wanted[at] for at in column], [sizes[at] for at in column], low=low, high=high)
        for at, middle in zip(column, placed, strict=True):
            middles[at] = middle
    return middles
