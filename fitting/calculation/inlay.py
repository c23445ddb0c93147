"""Inlay: the cloth left in a cut seam that can still be let out."""

from dataclasses import dataclass

from catalogue.lengths.calculation.units import INCH_MM

# The least a seam can be sewn with and still hold; common practice, no source.
LEAST_SEAM_MM = INCH_MM / 4


@dataclass(frozen=True, slots=True, kw_only=True)
class InlayLeft:
    """`left_mm` over all its edges together; negative where more was let out than there was."""

    edges: int
    cut_with_mm: float
    let_out_mm: float

    @property
    def left_mm(self) -> float:
        return self.edges * (self.cut_with_mm - LEAST_SEAM_MM) - self.let_out_mm

    @property
    def left_each_mm(self) -> float:
        """For each edge, where they share alike."""
        return self.left_mm / self.edges

    def is_enough_for(self, asked_mm: float) -> bool:
        """Whether `asked_mm`, in all, can be let out; else the piece is cut again, or pieced."""
        return asked_mm <= max(self.left_mm, 0.0) + 1e-6


def inlay_left(*, cut_with_mm: float, edges: int, let_out_mm: float = 0.0) -> InlayLeft:
    """A seam cut with an allowance at each of its edges, `let_out_mm` of it used up in all (less taken in).

    Two edges: 2 · (cut allowance − 1/4 in) can be let out. Raises ValueError for no edge.
    """
    if edges < 1:
        raise ValueError("A seam has at least one edge.")
    return InlayLeft(edges=edges, cut_with_mm=cut_with_mm, let_out_mm=let_out_mm)
