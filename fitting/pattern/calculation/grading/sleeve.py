"""The sleeve goes with the armhole: its head keeps the ease over the armhole that the plate gave it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin, PieceToGrade

# A head rises on both sides: for 1 mm of height its edge gains more than 1 and less than 2.
_EDGE_FOR_HEIGHT = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveHead:
    """Which edges make head and armhole, by the piece's place and the edge's name."""

    head: tuple[tuple[int, str], ...]
    armhole: tuple[tuple[int, str], ...]
    ease_mm: float

    @classmethod
    def of(
        cls, pieces: Sequence[PieceToGrade], joins: Sequence[GradingJoin], *, limbs: Collection[int]
    ) -> "SleeveHead | None":
        """Every edge of a limb that is sewn to the trunk, and those that it is sewn to; None without."""
        places = {piece.shape.name: index for index, piece in enumerate(pieces)}
        head: set[tuple[int, str]] = set()
        armhole: set[tuple[int, str]] = set()
        for join in joins:
            one, other = (
                {(places[piece], edge) for piece, edge in run if piece in places}
                for run in (join.one, join.other)
            )
            for these, those in ((one, other), (other, one)):
                if _all_on(these, limbs) and those and not any(index in limbs for index, _ in those):
                    head |= these
                    armhole |= those
        if not head:
            return None
        shapes = {index: piece.shape for index, piece in enumerate(pieces)}
        ease_mm = _mm(shapes, head) - _mm(shapes, armhole)
        return cls(head=tuple(head), armhole=tuple(armhole), ease_mm=ease_mm)

    def more_mm(self, moved: Mapping[int, tuple[TracedShape, tuple[LevelLine, ...]]]) -> float:
        """By how much more the head is to rise: below 0 it is too high."""
        shapes = {index: shape for index, (shape, _) in moved.items()}
        missing_mm = _mm(shapes, self.armhole) + self.ease_mm - _mm(shapes, self.head)
        return missing_mm / _EDGE_FOR_HEIGHT


def _all_on(run: Collection[tuple[int, str]], limbs: Collection[int]) -> bool:
    return bool(run) and all(index in limbs for index, _ in run)


def _mm(shapes: Mapping[int, TracedShape], run: Collection[tuple[int, str]]) -> float:
    wanted = {index: {edge for at, edge in run if at == index} for index, _ in run}
    return sum(
        edge.length
        for index, names in wanted.items()
        for edge in shapes[index].outline.edges()
        if edge.name in names
    )
