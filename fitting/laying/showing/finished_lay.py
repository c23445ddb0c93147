"""A finished lay as it is kept, and as a page and a dossier show it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from catalogue.workroom.reader.codec import from_json
from fitting.laying.calculation.lay_out import Arrangement
from fitting.laying.exchange.lay_answer import LayAnswer, PiecingAnswer, lay_answer, lay_said, to_buy_text
from fitting.laying.loading.orders import lay_request
from fitting.laying.models import Lay
from fitting.laying.showing.drawing import draw_lay


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishedWidth:
    """What a row keeps of a lay on one width: its answer, its cloth, what to ask for in the shop; by unit,
    the drawing and what one must know.
    """

    answer: LayAnswer
    width_mm: float
    usable_width_mm: float
    to_buy: str
    drawings: Mapping[str, str]
    said: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # lays said nothing at first


def finished_width(lay: Arrangement, unit: str, *, name: str, of: str = "") -> FinishedWidth:
    """`of`: which version of the pattern is laid, said in the drawing."""
    return FinishedWidth(
        answer=lay_answer(lay),
        width_mm=lay.cloth.width_mm,
        usable_width_mm=lay.cloth.usable_width_mm,
        to_buy=to_buy_text(lay.length_to_buy_mm, unit),
        said={system: tuple(lay_said(lay, system)) for system in ("in", "cm")},
        drawings={system: draw_lay(lay, system=system, name=name, of=of) for system in ("in", "cm")},
    )


def finished_widths(kept: Any) -> tuple[FinishedWidth, ...]:
    """What a row holds of them so far. Raises Faults where it does not."""
    return from_json(tuple[FinishedWidth, ...], kept)


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinText:
    """A piece wider than the cloth: in how many parts, and how far from its left side each join lies."""

    piece: str
    parts: int
    from_left_mm: tuple[float, ...]
    allowance_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidWidth:
    width_mm: float
    width_text: str
    usable_width_mm: float
    length_mm: float
    length_to_buy_mm: float
    to_buy: str
    density: float
    pieces: int
    joins: tuple[JoinText, ...]
    drawing: str
    said: tuple[str, ...]
    is_least_cloth: bool

    @property
    def square_m(self) -> float:
        """The cloth bought, in square metres."""
        return self.width_mm * self.length_to_buy_mm / 1e6


def widths_laid(row: Lay, system: str) -> list[LaidWidth]:
    """Every width that was laid, in the order asked for."""
    widths, request = finished_widths(row.results), lay_request(row.inputs)
    bought = [round(one.width_mm * one.answer.length_to_buy_mm) for one in widths]
    lefts = {piece.name: min(x for x, _ in piece.outline) for piece in request.pieces}
    return [
        LaidWidth(
            width_mm=one.width_mm,
            width_text=text,
            usable_width_mm=one.usable_width_mm,
            length_mm=one.answer.length_mm,
            length_to_buy_mm=one.answer.length_to_buy_mm,
            to_buy=one.to_buy,
            density=one.answer.density,
            pieces=len(one.answer.placements),
            joins=tuple(_join(piecing, lefts.get(piecing.piece, 0.0)) for piecing in one.answer.piecing),
            drawing=one.drawings[system],
            said=one.said.get(system, ()),
            is_least_cloth=len(bought) > 1 and [area] == [other for other in bought if other <= area],
        )
        for one, text, area in zip(widths, request.widths, bought, strict=False)
    ]


def _join(piecing: PiecingAnswer, left_mm: float) -> JoinText:
    return JoinText(
        piece=piecing.piece,
        parts=len(piecing.parts),
        from_left_mm=tuple(x - left_mm for x in piecing.lines_x_mm),
        allowance_mm=piecing.allowance_mm,
    )


def how_laid(row: Lay) -> list[str]:
    """What one must know to cut by it, a sentence each: the cloth as it lies, graded pieces, allowances."""
    request = lay_request(row.inputs)
    halves = [piece.name for piece in request.pieces if piece.on_fold]
    has_repeat = any(cloth.repeat.is_there for cloth in request.cloths)
    matched = [f"{name} at {where}" for name, where in request.matched.items() if has_repeat]
    cannot = request.cannot_match if has_repeat else ()
    form = request.form
    edges = [f"{name.removeprefix('edge ')} {text}" for name, text in form.items() if name[:5] == "edge "]
    said = {
        "The cloth lies folded lengthwise, its selvedges together; each piece is cut through both layers.": (
            request.is_folded
        ),
        f"With their fold at the fold of the cloth: {', '.join(halves)}.": halves,
        f"One more of each comes of it than is asked for: {', '.join(request.spare)}.": request.spare,
        f"Pieces of the {request.of}.": request.of,
        f"Graded to the wearer: {', '.join(request.graded)}.": request.graded,
        f"Matched to the repeat: {'; '.join(matched)}.": matched,
        f"Cannot match: {'; '.join(cannot)}.": cannot,
        f"Allowance {form.get('allowance')}.": form.get("allowance"),
        f"Other allowances: {', '.join(edges)}.": edges,
        f"With allowances of their own: {', '.join(request.with_own)}.": request.with_own,
    }
    return [sentence for sentence, holds in said.items() if holds]
