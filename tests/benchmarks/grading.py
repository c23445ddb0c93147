"""How long grading and full-size sheets take, against a floor: `python -m tests.benchmarks.grading`.

Eight pieces (the day bodice, and a second collar) graded at every level, against measuring them once; a
gown's worth of sheets on A4 (the bodice and four skirt panels, above sixty pages), against as many empty
pages by WeasyPrint alone.
"""

import time
from collections.abc import Callable

from weasyprint import HTML

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
        start = time.process_time()
        deed()
        taken.append(1000 * (time.process_time() - start))
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


def empty_pdf(pages: int) -> bytes:
    """So many pages of A4 with nothing on them, by WeasyPrint alone."""
    page = "<div style='break-after: page'>&nbsp;</div>"
    return HTML(string=f"<style>@page {{ size: A4 }}</style>{page * pages}").write_pdf()


def told(name: str, ms: float, floor: str, floor_ms: float) -> None:
    print(f"{name}: {ms:.0f} ms, {ms / floor_ms:.1f} times {floor} ({floor_ms:.1f} ms)")


def main() -> None:
    pieces = eight_pieces()
    girths = wanted(pieces)
    graded_ms = best_ms(lambda: grade(pieces, girths=girths))
    measured_ms = best_ms(lambda: wanted(pieces))
    told(f"grading {len(pieces)} pieces at {len(girths)} levels", graded_ms, "measuring them", measured_ms)
    pages, pdf = gown_pdf()
    name = f"sheets of a gown, {pages} pages, {len(pdf) // 1024} KB"
    told(name, best_ms(gown_pdf), "empty pages", best_ms(lambda: empty_pdf(pages)))


if __name__ == "__main__":
    main()
