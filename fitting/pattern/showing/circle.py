"""A skirt cut as part of a circle as a sheet: its seam line, its chalk line, one piece of it drawn."""

from fitting.pattern.calculation.skirts import CircleSkirt, circle_skirt
from fitting.pattern.loading.sheet_answer import AnswerLine, SheetAnswer, Sketch, Stroke, number
from fitting.pattern.showing.skirts import down, words

PARTS = {
    1.0: "a whole circle",
    0.75: "three quarters of a circle",
    0.5: "half a circle",
    0.25: "a quarter circle",
}


def circle_sheet(
    *, waist_mm: float, length_mm: float, part: float, allowance_mm: float, opening_mm: float
) -> SheetAnswer:
    """Raises Faults as `circle_skirt` does."""
    skirt = circle_skirt(
        waist_mm=waist_mm, length_mm=length_mm, part=part, allowance_mm=allowance_mm, opening_mm=opening_mm
    )
    ring, arc = skirt.seam_line, ("(", waist_mm, " + ", opening_mm, ")") if opening_mm else (waist_mm,)
    return SheetAnswer(
        figures={
            "inner radius": ring.inner_mm,
            "outer radius": ring.outer_mm,
            "hem": ring.hem_mm,
            "chalk, inner radius": skirt.chalk_inner_mm,
            "chalk, outer radius": skirt.chalk_outer_mm,
        },
        lines=(
            AnswerLine(label="inner radius", parts=(*arc, f" ÷ ({number(part)} × 2π) = ", ring.inner_mm)),
            AnswerLine(label="outer radius", parts=(ring.inner_mm, " + ", length_mm, " = ", ring.outer_mm)),
            AnswerLine(label="hem", parts=(f"{number(part)} × 2π × ", ring.outer_mm, " = ", ring.hem_mm)),
            *(_chalked(skirt) if allowance_mm else ()),
        ),
        drawings=(_drawn(skirt, part),),
    )


def _chalked(skirt: CircleSkirt) -> tuple[AnswerLine, ...]:
    ring, allowance_mm = skirt.seam_line, skirt.allowance_mm
    waist = (ring.inner_mm, " − ", allowance_mm, " = ", skirt.chalk_inner_mm)
    hem = (ring.outer_mm, " + ", allowance_mm, " = ", skirt.chalk_outer_mm)
    beside = (allowance_mm, " beside each straight edge")
    return (
        AnswerLine(label="chalk the waist at", parts=waist),
        AnswerLine(label="chalk the hem at", parts=hem),
        AnswerLine(label="chalk the sides", parts=beside),
    )


def _drawn(skirt: CircleSkirt, part: float) -> Sketch:
    is_two = part > 0.5
    ring = skirt.seam_line.divided(2) if is_two else skirt.seam_line
    return Sketch(
        title=PARTS.get(part, "part of a circle") + (", one of two pieces" if is_two else ""),
        says="A piece of a ring: the waist is its inner arc, the hem its outer one.",
        strokes=(Stroke(points=down(ring.outline()), look="cloth", is_closed=True),),
        words=words(ring, 0.0, ""),
    )
