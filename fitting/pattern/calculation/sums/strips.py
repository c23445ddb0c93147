"""Strips cut across a cloth and joined, for whatever is flat: gathers, pleats, tucks, tiers."""

import math
from dataclasses import asdict, dataclass, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check, counted
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, SheetAnswer

_SLIP = 1e-9  # a whole number stays one, whatever the last binary digit says


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips cut across the cloth and joined to a flat length; `cloth_mm` is the cloth they take."""

    number: int
    joined_mm: float
    cloth_mm: float


def strips(
    flat_mm: float, *, cloth_width_mm: float, depth_mm: float, join_mm: float = 0.0, is_round: bool = False
) -> Strips:
    """Whole strips for a flat length, each `depth_mm` of cloth as cut, `join_mm` the allowance at its ends.

    A round flounce is joined at both ends of every strip; in an open one the two outer ends are free.
    Raises Faults where the joins leave nothing of the width.
    """
    check(
        {"flat": flat_mm, "cloth_width": cloth_width_mm, "depth": depth_mm, "join": join_mm},
        may_be_nothing=["join"],
    )
    each_mm = cloth_width_mm - 2 * join_mm
    if each_mm <= 0:
        raise Faults([Fault("join", "The joins take up the whole width of the cloth.")])
    free_mm = 0.0 if is_round else 2 * join_mm
    count = counted((flat_mm - free_mm) / each_mm, where="cloth_width", what="strips")
    number = max(1, math.ceil(count - _SLIP))
    return Strips(number=number, joined_mm=number * each_mm + free_mm, cloth_mm=number * depth_mm)


STRIPS = ask.Group(
    name="strips",
    inputs=(
        ask.Length("cloth_width", "Width of the cloth, for strips", is_needed=True),
        ask.Length("depth", "Depth of a strip as cut", box="strip_depth", is_needed=True),
        ask.Length("join", "Allowance at each join", default="0 in"),
        ask.YesNo("round", "Joined to a ring", box="is_round"),
    ),
    says="Strips need both the width of the cloth and their depth.",
)


def strips_asked(flat_mm: float, asked: Given) -> Strips:
    """The strips of `STRIPS` for a flat length. Raises Faults as `strips` does, told within the group."""
    lengths: dict[str, Any] = {name: asked[name] for name in ("cloth_width_mm", "depth_mm", "join_mm")}
    try:
        return strips(flat_mm, **lengths, is_round=asked["round"])
    except Faults as faults:
        raise Faults(Fault(f"strips.{fault.where}", fault.sentence) for fault in faults.faults) from faults


def strips_told(flat_mm: float, asked: Given | None) -> Answer:
    """What an answer holds of them, where they are asked for."""
    return {"strips": asdict(strips_asked(flat_mm, asked))} if asked else {}


def in_strips(worked: SheetAnswer, flat_mm: float, asked: Given | None) -> SheetAnswer:
    """A sum with the strips that its flat length is joined from, where they are asked for."""
    if not asked:
        return worked
    cut = strips_asked(flat_mm, asked)
    lines = (
        AnswerLine(label="strips", parts=(flat_mm, f" from {cut.number} strips, joined ", cut.joined_mm)),
        AnswerLine(label="cloth", parts=(f"{cut.number} × ", asked["depth_mm"], " = ", cut.cloth_mm)),
    )
    figures = {"strips": cut.number, "joined": cut.joined_mm, "cloth": cut.cloth_mm}
    return replace(worked, figures={**worked.figures, **figures}, lines=(*worked.lines, *lines))
