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
