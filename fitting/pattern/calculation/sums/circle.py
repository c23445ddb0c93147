"""A skirt cut as part of a circle: its radii, the lines to chalk, and one piece of it drawn."""

import math
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import at_waist, skirt_length, usual_allowance
from fitting.pattern.calculation.sums.ring import RingPiece, down, ring_told
from fitting.pattern.calculation.sums.sheet_answer import (
    AnswerLine,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
    number,
)

MOST_CIRCLES = 10  # joined to one another; a fuller skirt is pleated
PARTS = {1.0: "a whole circle", 0.75: "three quarters", 0.5: "half a circle", 0.25: "a quarter"}
_DRAWN_AS = {**PARTS, 0.75: "three quarters of a circle", 0.25: "a quarter circle"}


@dataclass(frozen=True, slots=True, kw_only=True)
class CircleSkirt:
    """A skirt by its seam line, and the allowance that its chalk line is drawn outside of it with."""

    seam_line: RingPiece
    allowance_mm: float

    @property
    def chalk_inner_mm(self) -> float:
        """The radius to chalk the waist with: an allowance nearer to the middle."""
        return self.seam_line.inner_mm - self.allowance_mm

    @property
    def chalk_outer_mm(self) -> float:
        return self.seam_line.outer_mm + self.allowance_mm


def circle_skirt(
    *,
    waist_mm: float,
    length_mm: float,
    part: float = 1.0,
    allowance_mm: float = 0.0,
    opening_mm: float = 0.0,
) -> CircleSkirt:
    """`part` of a circle: 1, 3/4, 1/2, 1/4. The radius is the waist ÷ the angle, not ÷ 4 as some teach.

    `opening_mm` laps over at the fastening, and is part of the arc. Raises Faults for a part of nothing or of
    more circles than are worn, a length that is none, or a waist too small for its allowance.
    """
    check(
        {"waist": waist_mm, "length": length_mm, "allowance": allowance_mm, "opening": opening_mm},
        may_be_nothing=["allowance", "opening"],
    )
    if not 0 < part <= MOST_CIRCLES:
        raise Faults([Fault("part", f"This is a part of a circle: above 0, and up to {MOST_CIRCLES}.")])
    turn = 2 * math.pi * part
    inner_mm = (waist_mm + opening_mm) / turn
    check({"part": inner_mm + length_mm})
    if inner_mm <= allowance_mm:
        raise Faults([Fault("allowance", "The waist is too small a circle for this allowance within it.")])
    ring = RingPiece(inner_mm=inner_mm, outer_mm=inner_mm + length_mm, turn=turn)
    return CircleSkirt(seam_line=ring, allowance_mm=allowance_mm)


def _answer(skirt: CircleSkirt, given: Given) -> Answer:
    chalk = {"chalk_inner_mm": skirt.chalk_inner_mm, "chalk_outer_mm": skirt.chalk_outer_mm}
    return ring_told(skirt.seam_line) | chalk


def _worked(skirt: CircleSkirt, given: Given) -> SheetAnswer:
    ring, waist_mm, opening_mm = skirt.seam_line, given["waist_mm"], given["opening_mm"]
    arc, part = ("(", waist_mm, " + ", opening_mm, ")") if opening_mm else (waist_mm,), number(given["part"])
    return SheetAnswer(
        figures={
            "inner radius": ring.inner_mm,
            "outer radius": ring.outer_mm,
            "hem": ring.hem_mm,
            "chalk, inner radius": skirt.chalk_inner_mm,
            "chalk, outer radius": skirt.chalk_outer_mm,
        },
        lines=(
            AnswerLine(label="inner radius", parts=(*arc, f" ÷ ({part} × 2π) = ", ring.inner_mm)),
            AnswerLine(
                label="outer radius", parts=(ring.inner_mm, " + ", given["length_mm"], " = ", ring.outer_mm)
            ),
            AnswerLine(label="hem", parts=(f"{part} × 2π × ", ring.outer_mm, " = ", ring.hem_mm)),
            *(_chalked(skirt) if skirt.allowance_mm else ()),
        ),
        drawings=(_drawn(skirt, given["part"]),),
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
        title=_DRAWN_AS.get(part, "part of a circle") + (", one of two pieces" if is_two else ""),
        says="A piece of a ring: the waist is its inner arc, the hem its outer one.",
        strokes=(Stroke(points=down(ring.outline()), look="cloth", is_closed=True),),
        words=(
            SketchWord(at=(0.0, ring.inner_mm), parts=("top ", ring.top_mm)),
            SketchWord(at=(0.0, ring.outer_mm), parts=("hem ", ring.hem_mm)),
        ),
    )


CIRCLE = PatternSum(
    key="circle",
    title="skirt from a circle",
    says="Radii of a skirt cut as a circle or part of one.",
    group="Skirts",
    command="skirt",
    inputs=(
        ask.Length("waist", "Waist", first=at_waist, is_needed=True),
        ask.Length("length", "Length", first=skirt_length, is_needed=True),
        ask.Number("part", "How much of a circle", default=1, offered=PARTS, first="0.5"),
        ask.Length("allowance", "Allowance at every edge", default="0 in", first=usual_allowance),
        ask.Length(
            "opening",
            "Laps over at the opening",
            default="0 in",
            hint="A placket or a wrap, beyond the waist.",
        ),
    ),
    reckon=circle_skirt,
    worked=_worked,
    answer=_answer,
)
