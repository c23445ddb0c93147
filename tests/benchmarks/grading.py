"""How long grading and full-size sheets take: `python -m tests.benchmarks.grading`.

Eight pieces (the day bodice, and a second collar) graded at every level; a gown's worth of sheets on A4: the
bodice and four skirt panels, above sixty pages.
"""

import time
from collections.abc import Callable

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import TracedShape, level_widths
from fitting.pattern.calculation.grading.grade import grade
from fitting.pattern.calculation.grading.values import PieceToGrade, WantedGirth
from fitting.pattern.calculation.sheets.paper import PAPERS
from fitting.pattern.calculation.sheets.sheet import Allowances, PieceToPrint, full_size_sheet
from fitting.pattern.showing.paper.cover import SheetTitle
from fitting.pattern.showing.paper.document import full_size_pdf
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import INCH_MM, plate_to_grade

TIMES = 9


def best_ms(deed: Callable[[], object]) -> float:
    """The best of several: what else the machine does only ever adds."""
    taken = []
    for _ in range(TIMES):
        start = time.perf_counter()
        deed()
        taken.append(1000 * (time.perf_counter() - start))
    return min(taken)


def eight_pieces() -> list[PieceToGrade]:
    pieces = plate_to_grade(day_bodice.PLATE)
    return [*pieces, pieces[-1]]


def wanted(pieces: list[PieceToGrade]) -> list[WantedGirth]:
    girths: dict[str, float] = {}
    for piece in pieces:
        for width in level_widths(piece.shape, piece.levels):
            mm = piece.times(width.line) * (width.width_mm - width.take_up_mm)
            girths[width.line] = girths.get(width.line, 0.0) + mm
    return [WantedGirth(level=level, wanted_mm=1.05 * mm) for level, mm in girths.items()]


def skirt_panel() -> TracedShape:
    corners = (0j, 250 + 0j, 450 + 1050j, -200 + 1050j)
    return TracedShape(name="skirt", outline=Outline(nodes=tuple(Node(at=at) for at in corners)))


def gown_pdf() -> tuple[int, bytes]:
    shapes = [piece.shape for piece in plate_to_grade(day_bodice.PLATE)] + [skirt_panel()] * 4
    pieces = [PieceToPrint(shape=shape, words=(shape.name, "cut 2", "as drawn")) for shape in shapes]
    allowances = Allowances(usual_mm=INCH_MM / 2, by_edge={"hem": 2 * INCH_MM})
    sheet = full_size_sheet(pieces, paper=PAPERS["A4"], allowances=allowances)
    title = SheetTitle(garment="Gown", made="as drawn", printed_on="today")
    return len(sheet.pages), full_size_pdf(sheet, title)


def main() -> None:
    pieces = eight_pieces()
    girths = wanted(pieces)
    graded_ms = best_ms(lambda: grade(pieces, girths=girths))
    print(f"grading {len(pieces)} pieces at {len(girths)} levels: {graded_ms:.0f} ms")
    pages, pdf = gown_pdf()
    print(f"sheets of a gown, {pages} pages, {len(pdf) // 1024} KB: {best_ms(gown_pdf):.0f} ms")


if __name__ == "__main__":
    main()
