"""How small a miniature must be to stand on a small dress stand."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES


@dataclass(frozen=True, slots=True, kw_only=True)
class StandLevel:
    """A girth at full size and on the stand."""

    line: str
    full_mm: float
    stand_mm: float

    @property
    def label(self) -> str:
        return LINES[self.line].label

    @property
    def one_to(self) -> float:
        return self.full_mm / self.stand_mm

    def spare_mm(self, one_to: float) -> float:
        """What a miniature of 1 to so much is larger by than the stand."""
        return self.full_mm / one_to - self.stand_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class StandRatio:
    """`one_to` is the smallest ratio of all levels: the miniature goes round the stand at every one."""

    levels: tuple[StandLevel, ...]

    @property
    def one_to(self) -> float:
        return min(level.one_to for level in self.levels)


def ratio_for_stand(full_mm: Mapping[str, float], stand_mm: Mapping[str, float]) -> StandRatio:
    """From girths by level, at full size and of the stand. Raises Faults where they share none, or where the
    stand is not small."""
    levels = tuple(
        StandLevel(line=line, full_mm=full_mm[line], stand_mm=mm)
        for line, mm in stand_mm.items()
        if line in full_mm and LINES[line].kind == "girth"
    )
    if not levels:
        raise Faults([Fault("stand", "This stand has no girth at a level that is known here: measure it.")])
    ratio = StandRatio(levels=levels)
    if ratio.one_to < 1:
        raise Faults([Fault("stand", "This stand is larger than the pieces: it is not for a miniature.")])
    return ratio
