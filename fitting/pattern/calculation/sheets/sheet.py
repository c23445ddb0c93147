"""Pieces on one large sheet, and the pages of it that carry something."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from shapely import (
    LinearRing,
    LineString,
    Polygon,
    STRtree,
    box,
    maximum_inscribed_circle,
    union_all,
)
from shapely import Point as Place

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.motion import fold_edge, placed, upright_turn
from fitting.pattern.calculation.sheets.cutting_line import cutting_line
from fitting.pattern.calculation.sheets.paper import (
    LONGEST_PAGE_MM,
    MARGIN_MM,
    OVERLAP_MM,
    Paper,
    Tile,
    Tiling,
)

GAP_MM = 6.0  # between pieces, so that each can be cut out
NOTCH_MM = 3.0  # within the seam line
CLEAR_MM = 1.5  # between a label and a mark
MOST_PAGES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceToPrint:
    """A piece at full size. `words` stand on it, the first of them largest.

    `levels`: each as a line by its name; `numbers`: of its notches, in the order of its marks. `own_cut`: its
    cutting line, where it has allowances of its own.
    """

    shape: TracedShape
    words: tuple[str, ...]
    levels: Mapping[str, tuple[Point, ...]] = field(default_factory=dict)
    numbers: tuple[int, ...] = ()
    own_cut: Polygon | None = None

    def placed(self, place: Callable[[Point], Point]) -> "PieceToPrint":
        """Every point of it somewhere else."""
        return replace(
            self,
            shape=placed(self.shape, place),
            levels={name: tuple(map(place, line)) for name, line in self.levels.items()},
            own_cut=self.own_cut and _polygon_placed(self.own_cut, place),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What is added to each edge: the usual, and by its name where it differs (nothing at a fold)."""

    usual_mm: float
    by_edge: Mapping[str, float]


@dataclass(frozen=True, kw_only=True)
class PrintedPiece:
    """A piece as it lies on the sheet, at the sheet's scale."""

    piece: PieceToPrint
    cut: Polygon

    @property
    def shape(self) -> TracedShape:
        return self.piece.shape

    @property
    def words(self) -> tuple[str, ...]:
        return self.piece.words

    def moved(self, by: Point) -> "PrintedPiece":
        return PrintedPiece(
            piece=self.piece.placed(lambda point: point + by),
            cut=_polygon_placed(self.cut, lambda point: point + by),
        )

    @cached_property
    def label_place(self) -> tuple[Point, float]:
        """The middle of the widest place without a mark, and how far it is from there to anything."""
        outline = Polygon([(at.real, at.imag) for at in self.shape.outline.flattened(0.5)])
        drawn = [
            LineString([(at.real, at.imag) for at in mark.points]).buffer(CLEAR_MM)
            for mark in self.shape.marks
            if mark.kind in ("grain", "dart", "pleat")
        ]
        free = outline.difference(union_all(drawn)) if drawn else outline
        (x, y), edge = maximum_inscribed_circle(free, tolerance=2.0).coords
        return complex(x, y), abs(complex(*edge) - complex(x, y))


@dataclass(frozen=True, kw_only=True)
class Page:
    number: int
    tile: Tile
    pieces: tuple[PrintedPiece, ...]


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """All pieces at one scale, and how the sheet falls into pages. `scale` is 1 at full size."""

    pieces: tuple[PrintedPiece, ...]
    tiling: Tiling
    scale: float = 1.0

    @cached_property
    def pages(self) -> tuple[Page, ...]:
        """The pages of which some piece touches the part that they own."""
        tree = STRtree([piece.cut for piece in self.pieces])
        carrying = []
        for tile in self.tiling.tiles():
            if len(tree.query(box(*self.tiling.owned(tile)), predicate="intersects")):
                printed = tree.query(
                    box(tile.left, tile.top, tile.left + tile.width, tile.top + tile.height),
                    predicate="intersects",
                )
                carrying.append((tile, tuple(self.pieces[index] for index in sorted(printed.tolist()))))
        return tuple(
            Page(number=number, tile=tile, pieces=pieces)
            for number, (tile, pieces) in enumerate(carrying, start=1)
        )


def full_size_sheet(
    pieces: Sequence[PieceToPrint],
    *,
    paper: Paper,
    allowances: Allowances,
    overlap_mm: float = OVERLAP_MM,
) -> Sheet:
    """Lay the pieces on a sheet that takes the fewest pages. Raises Faults for what cannot be printed.

    A roll is as long as it need be; past the longest page that a file may have it too goes on to another.
    """
    ready = made_ready(pieces, allowances)
    sheets = []
    for columns in range(1, 13):
        width_mm = columns * (paper.prints_mm[0] - overlap_mm) + overlap_mm
        if max(piece.cut.bounds[2] for piece in ready) > width_mm and columns < 12:
            continue
        placed, (_, height_mm) = shelved(ready, width_mm)
        page = paper
        if paper.name == "roll":
            page = Paper.roll(paper.width_mm, min(LONGEST_PAGE_MM, height_mm + 2 * MARGIN_MM))
        tiling = Tiling(width_mm=width_mm, height_mm=height_mm, paper=page, overlap_mm=overlap_mm)
        sheets.append(Sheet(pieces=placed, tiling=tiling))
        if paper.name == "roll":
            break
    best = min(sheets, key=lambda sheet: len(sheet.pages))
    if len(best.pages) > MOST_PAGES:
        raise Faults([Fault("paper", f"That is more than {MOST_PAGES} pages: print fewer pieces at a time.")])
    return best


def made_ready(pieces: Sequence[PieceToPrint], allowances: Allowances) -> list[PrintedPiece]:
    """Each piece with its cutting line, its grain upright, its bounds starting at 0, 0."""
    if not pieces:
        raise Faults([Fault("pieces", "Choose at least one piece to print.")])
    return [_at_origin(piece, allowances) for piece in pieces]


def _at_origin(piece: PieceToPrint, allowances: Allowances) -> PrintedPiece:
    turn = upright_turn(piece.shape)
    stood = piece.placed(lambda point: point * turn)
    shape, cut = stood.shape, stood.own_cut
    if cut is None:
        fold = fold_edge(shape)
        by_edge = {**allowances.by_edge, fold.name: 0.0} if fold else allowances.by_edge
        cut = cutting_line(shape.outline, usual_mm=allowances.usual_mm, by_edge=by_edge, name=shape.name)
    return PrintedPiece(piece=stood, cut=cut).moved(-complex(cut.bounds[0], cut.bounds[1]))


def _polygon_placed(polygon: Polygon, place: Callable[[Point], Point]) -> Polygon:
    return Polygon([(at.real, at.imag) for at in (place(complex(*xy)) for xy in polygon.exterior.coords)])


def shelved(
    pieces: Sequence[PrintedPiece], width_mm: float
) -> tuple[tuple[PrintedPiece, ...], tuple[float, float]]:
    """Placed on shelves, tallest first, each as far up as there is room; and the size of it all."""
    shelves: list[list[float]] = []  # the top, the height and how far each is filled
    placed: dict[int, PrintedPiece] = {}
    for index in sorted(range(len(pieces)), key=lambda index: -pieces[index].cut.bounds[3]):
        _, _, wide, high = pieces[index].cut.bounds
        shelf = next((one for one in shelves if one[2] + wide <= width_mm), None)
        if shelf is None:
            top = shelves[-1][0] + shelves[-1][1] + GAP_MM if shelves else 0.0
            shelf = [top, high, 0.0]
            shelves.append(shelf)
        placed[index] = pieces[index].moved(complex(shelf[2], shelf[0]))
        shelf[2] += wide + GAP_MM
    size = (max(one[2] - GAP_MM for one in shelves), shelves[-1][0] + shelves[-1][1])
    return tuple(placed[index] for index in range(len(pieces))), size


def notch_lines(piece: PrintedPiece) -> Iterator[tuple[Point, Point]]:
    """Each notch as a line from a little within the seam line out to the cutting line."""
    cutting_line = piece.cut.exterior
    seam_line = LinearRing([(at.real, at.imag) for at in piece.shape.outline.flattened(0.05)])
    for mark in piece.shape.marks:
        if mark.kind == "notch":
            place = seam_line.project(Place(mark.points[0].real, mark.points[0].imag))
            before, at, after = (
                complex(*seam_line.interpolate((place + by) % seam_line.length).coords[0])
                for by in (-0.5, 0.0, 0.5)
            )
            inwards = chord(before, after) * 1j
            if not piece.shape.outline.contains(at + inwards):
                inwards = -inwards
            yield at + NOTCH_MM * inwards, at - cutting_line.distance(Place(at.real, at.imag)) * inwards
