"""The traced pieces of a plate on paper, at a scale that can be said in one word and measured with a rule."""

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.models.plate import Plate
from catalogue.tracing.loading.drawing import Drawing, traced_drawings
from catalogue.tracing.showing.figure import Figure, figure_of

SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50)
WIDEST_MM, HIGHEST_MM = 178.0, 190.0  # within the margins of A4 and of Letter, with room for the table
LETTER_MM = 2.7  # on the paper


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateDrawing:
    """`width_mm` and `height_mm` are on the paper, where the figure is drawn 1:`scale`."""

    figure: Figure
    scale: int

    @property
    def width_mm(self) -> float:
        return self.figure.width / self.scale

    @property
    def height_mm(self) -> float:
        return self.figure.height / self.scale

    @property
    def letter(self) -> float:
        """The height of its letters in the figure’s own millimetres."""
        return LETTER_MM * self.scale


def plate_drawings(plates: Sequence[Plate], system: System) -> dict[int, PlateDrawing]:
    """By plate, of those on which anything is traced; as many queries for twelve plates as for one.

    `plates` come `with_newest_matrix`, with `traced_levels`, their pieces with `traced`.
    """
    return {
        key: _on_paper(drawing, system) for key, drawing in traced_drawings(plates, with_levels=True).items()
    }


def _on_paper(drawing: Drawing, system: System) -> PlateDrawing:
    figure = figure_of(drawing, system)
    needed = max(figure.width / WIDEST_MM, figure.height / HIGHEST_MM)
    return PlateDrawing(figure=figure, scale=next((one for one in SCALES if one >= needed), SCALES[-1]))
