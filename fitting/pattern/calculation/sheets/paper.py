"""Paper to print on, and how a larger sheet is cut into pages that overlap.

Pages are counted by n = ceil((L − o) ÷ (p − o)) each way: p is what a page prints, o the overlap.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from catalogue.lengths.calculation.errors import Fault

INCH_MM = 25.4
MARGIN_MM = 10.0  # what common printers leave white
OVERLAP_MM = 15.0
NARROWEST_ROLL_MM, WIDEST_ROLL_MM = 200.0, 2000.0
# A page of a PDF is at most 14,400 units long: ISO 32000-1:2008, annex C, table C.1.
LONGEST_PAGE_MM = 5000.0
_SLIP = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, upright."""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float = MARGIN_MM

    @property
    def prints_mm(self) -> tuple[float, float]:
        """Width and height within the margins."""
        return self.width_mm - 2 * self.margin_mm, self.height_mm - 2 * self.margin_mm

    @property
    def turned(self) -> "Paper":
        return Paper(
            name=self.name, width_mm=self.height_mm, height_mm=self.width_mm, margin_mm=self.margin_mm
        )

    @classmethod
    def roll(cls, width_mm: float, length_mm: float = LONGEST_PAGE_MM) -> "Paper":
        return cls(name="roll", width_mm=width_mm, height_mm=length_mm)


# A4 and A3: ISO 216. Letter: 8 1/2 × 11 in, ANSI/ASME Y14.1 (A).
PAPERS: Mapping[str, Paper] = MappingProxyType(
    {
        "A4": Paper(name="A4", width_mm=210.0, height_mm=297.0),
        "Letter": Paper(name="Letter", width_mm=8.5 * INCH_MM, height_mm=11 * INCH_MM),
        "A3": Paper(name="A3", width_mm=297.0, height_mm=420.0),
    }
)


def page_count(length_mm: float, prints_mm: float, overlap_mm: float) -> int:
    """How many pages cover a length; at least one."""
    return max(1, math.ceil((length_mm - overlap_mm) / (prints_mm - overlap_mm) - _SLIP))


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One page's place on the whole sheet, by row and column from 0, and what it prints, in mm."""

    row: int
    column: int
    left: float
    top: float
    width: float
    height: float

    @property
    def place(self) -> str:
        return f"{row_letters(self.row)}{self.column + 1}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """A sheet cut into pages. Each point of it is owned by one page; overlaps are printed on both."""

    width_mm: float
    height_mm: float
    paper: Paper
    overlap_mm: float = OVERLAP_MM

    @property
    def step_mm(self) -> tuple[float, float]:
        across, down = self.paper.prints_mm
        return across - self.overlap_mm, down - self.overlap_mm

    @property
    def columns(self) -> int:
        return page_count(self.width_mm, self.paper.prints_mm[0], self.overlap_mm)

    @property
    def rows(self) -> int:
        return page_count(self.height_mm, self.paper.prints_mm[1], self.overlap_mm)

    def tiles(self) -> Iterator[Tile]:
        """Row by row."""
        (across, down), (step_x, step_y) = self.paper.prints_mm, self.step_mm
        for row in range(self.rows):
            for column in range(self.columns):
                yield Tile(
                    row=row,
                    column=column,
                    left=column * step_x,
                    top=row * step_y,
                    width=across,
                    height=down,
                )

    def owned(self, tile: Tile) -> tuple[float, float, float, float]:
        """What of the sheet no page to the left or above prints: left, top, right, bottom."""
        return (
            tile.left + (self.overlap_mm if tile.column else 0),
            tile.top + (self.overlap_mm if tile.row else 0),
            tile.left + tile.width,
            tile.top + tile.height,
        )

    def register_marks(self) -> Iterator[tuple[float, float]]:
        """Crosses in the middle of every overlap: two on each side of a page, printed on both pages."""
        (across, down), (step_x, step_y) = self.paper.prints_mm, self.step_mm
        middle = self.overlap_mm / 2
        for column in range(1, self.columns):
            for row in range(self.rows):
                for part in (0.25, 0.75):
                    yield column * step_x + middle, row * step_y + part * down
        for row in range(1, self.rows):
            for column in range(self.columns):
                for part in (0.25, 0.75):
                    yield column * step_x + part * across, row * step_y + middle


def faults_of(paper: Paper, overlap_mm: float) -> list[Fault]:
    """What cannot be printed on."""
    faults = []
    if paper.name == "roll" and not NARROWEST_ROLL_MM <= paper.width_mm <= WIDEST_ROLL_MM:
        faults.append(Fault("roll_width", "A roll is from 200 mm (8 in) to 2 m (79 in) wide."))
    if not 0 <= overlap_mm <= min(paper.prints_mm) / 4:
        faults.append(Fault("overlap", "The overlap is at most a quarter of what a page prints."))
    return faults


def row_letters(row: int) -> str:
    """A … Z, AA …: rows as they are called on the page plan."""
    letters = ""
    while row >= 0:
        letters, row = chr(ord("A") + row % 26) + letters, row // 26 - 1
    return letters
