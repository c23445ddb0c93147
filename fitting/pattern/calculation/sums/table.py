"""The sums of pattern work, in the order in which a garment's page lists them; and what a file may ask for.

To add one: a file beside this that declares it, a row here, a test. Its page, its command, what is kept of
it and the help come of that.
"""

from collections.abc import Mapping
from itertools import groupby
from typing import Any

from fitting.pattern.calculation.sums.bias import BIAS, BIAS_STRIPS, PIPING, RECTANGLE, SQUARE
from fitting.pattern.calculation.sums.boning import BONING
from fitting.pattern.calculation.sums.circle import CIRCLE
from fitting.pattern.calculation.sums.declaration import PatternSum
from fitting.pattern.calculation.sums.fastening import FASTENING
from fitting.pattern.calculation.sums.gathers import GATHERS
from fitting.pattern.calculation.sums.gores import GORES
from fitting.pattern.calculation.sums.pleats import PLEATS
from fitting.pattern.calculation.sums.sewing import SEWING
from fitting.pattern.calculation.sums.sleeve import SEAM, SLEEVE
from fitting.pattern.calculation.sums.support import SUPPORT
from fitting.pattern.calculation.sums.tiers import TIERS
from fitting.pattern.calculation.sums.tucks import TUCKS

# These two ask for all seams of a garment, whose boxes no declaration could tell: each has a form of its own.
ALTERATION: PatternSum[Any] = PatternSum(
    key="alteration",
    title="alteration plan and inlay",
    says="What each edge gets at each level, and the allowance to cut if the paper stays as it is.",
    group="Alter and join",
)
SEAMS: PatternSum[Any] = PatternSum(
    key="seams",
    title="seams, edge to edge",
    says="Each seam’s two edges with their difference, walked on the traced pieces or typed.",
    group="Alter and join",
)

SUMS: tuple[PatternSum[Any], ...] = (
    ALTERATION,
    SEAMS,
    SEAM,
    SLEEVE,
    GATHERS,
    PLEATS,
    TUCKS,
    TIERS,
    CIRCLE,
    GORES,
    SUPPORT,
    BIAS,
    RECTANGLE,
    SQUARE,
    BIAS_STRIPS,
    PIPING,
    BONING,
    FASTENING,
    SEWING,
)

PAGES: Mapping[str, PatternSum[Any]] = {one.key: one for one in SUMS if one.title}
GROUPS = tuple((group, tuple(sums)) for group, sums in groupby(PAGES.values(), key=lambda one: one.group))

# By its key in the row that keeps it. The last two are no sums that are typed.
TITLES: Mapping[str, str] = {
    **{key: one.title for key, one in PAGES.items()},
    "grade": "graded to the wearer",
    "sheets": "pattern sheets",
}


def of_command(command: str) -> dict[str, PatternSum[Any]]:
    """What a file of that command may hold, by the key of its table."""
    return {one.key: one for one in SUMS if one.command == command}
