"""The points of an outline as rows to type in: places in the person's unit, at full size."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from catalogue.tracing.calculation.geometry import MOST_POINTS
from catalogue.tracing.calculation.outline import Node

# Common words of the trade for the edges of a piece; any other may be typed.
EDGE_NAMES = (
    "centre front",
    "centre back",
    "side seam",
    "side front seam",
    "side back seam",
    "armhole",
    "shoulder",
    "neck",
    "waist",
    "hem",
    "top edge",
    "lower edge",
    "sleeve head",
    "inner seam",
    "outer seam",
    "wrist",
)
EMPTY_ROWS = 8


def typed_place(x: str, y: str, unit_mm: float) -> list[float]:
    """Millimetres across and down. Raises ValueError for what is no number, or farther than any plate."""
    place = [float(text.replace(",", ".")) * unit_mm for text in (x, y)]
    if not abs(complex(*place)) < 1e6:
        raise ValueError(place)
    return place


@dataclass(slots=True)
class PointRow:
    x: str = ""
    y: str = ""
    corner: bool = True
    curved: bool = False
    edge: str = ""
    fault: str = ""
    mm: tuple[float, float] | None = field(default=None)


class PointRows:
    """`rows` to show, `nodes()` once valid. A row without a place is left out, and one ticked away."""

    def __init__(
        self, data: Mapping[str, Any] | None, *, nodes: Sequence[Node], unit: Mapping[str, Any]
    ) -> None:
        self.unit_mm = unit["mm"]
        if data is None:
            self.rows = [self._held(node) for node in nodes] + [PointRow() for _ in range(EMPTY_ROWS)]
        else:
            self.rows = [self._typed(data, number) for number in range(self._count(data))]

    def _held(self, node: Node) -> PointRow:
        x, y = (f"{part / self.unit_mm:.4f}" for part in (node.at.real, node.at.imag))
        return PointRow(x=x, y=y, corner=node.corner, curved=node.curved, edge=node.edge)

    @staticmethod
    def _count(data: Mapping[str, Any]) -> int:
        typed = str(data.get("count", ""))
        return min(int(typed[:20]), MOST_POINTS) if typed.isdecimal() else 0

    def _typed(self, data: Mapping[str, Any], number: int) -> PointRow:
        row = PointRow(
            x=data.get(f"x-{number}", "").strip(),
            y=data.get(f"y-{number}", "").strip(),
            corner=f"corner-{number}" in data,
            curved=f"curved-{number}" in data,
            edge=data.get(f"edge-{number}", "").strip(),
        )
        if f"leave-{number}" in data or not (row.x or row.y):
            return PointRow()
        try:
            across, down = typed_place(row.x, row.y, self.unit_mm)
            row.mm = (across, down)
        except ValueError:
            row.fault = "Type both places as plain numbers, as 12.25."
        return row

    def is_valid(self) -> bool:
        return not any(row.fault for row in self.rows)

    def nodes(self) -> list[dict[str, Any]]:
        return [
            {
                "x": row.mm[0],
                "y": row.mm[1],
                "corner": row.corner,
                "curved": row.curved,
                "edge": row.edge,
            }
            for row in self.rows
            if row.mm
        ]
