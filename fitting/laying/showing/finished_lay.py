"""A finished lay as it is kept, and as a page and a dossier show it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fitting.laying.calculation.lay_out import Arrangement
from fitting.laying.exchange.lay_answer import lay_said, lay_to_json, to_buy_text
from fitting.laying.models import Lay
from fitting.laying.showing.drawing import draw_lay


def laid_to_json(lay: Arrangement, unit: str, *, name: str) -> dict[str, Any]:
    """What the `lay` command answers, its cloth, what to ask for in the shop, the drawing in both units."""
    return {
        "answer": lay_to_json(lay),
        "width_mm": lay.cloth.width_mm,
        "usable_width_mm": lay.cloth.usable_width_mm,
        "to_buy": to_buy_text(lay.length_to_buy_mm, unit),
        "said": {system: lay_said(lay, system) for system in ("in", "cm")},
        "drawings": {system: draw_lay(lay, system=system, name=name) for system in ("in", "cm")},
    }


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
    bought = [round(one["width_mm"] * one["answer"]["length_to_buy_mm"]) for one in row.results]
    lefts = _left_sides(row)
    texts = [order["cloth"]["width"] for order in row.inputs["orders"]]
    return [
        _shown(
            one,
            text,
            lefts,
            system,
            is_least_cloth=len(bought) > 1 and [area] == [one for one in bought if one <= area],
        )
        for one, text, area in zip(row.results, texts, bought, strict=False)
    ]


def _shown(
    one: Mapping[str, Any], text: str, lefts: Mapping[str, float], system: str, *, is_least_cloth: bool
) -> LaidWidth:
    answer = one["answer"]
    return LaidWidth(
        width_mm=one["width_mm"],
        width_text=text,
        usable_width_mm=one["usable_width_mm"],
        length_mm=answer["length_mm"],
        length_to_buy_mm=answer["length_to_buy_mm"],
        to_buy=one["to_buy"],
        density=answer["density"],
        pieces=len(answer["placements"]),
        joins=tuple(_joins(answer["piecing"], lefts)),
        drawing=one["drawings"][system],
        said=tuple(one.get("said", {}).get(system, ())),  # rows kept before lays said anything have none
        is_least_cloth=is_least_cloth,
    )


def _joins(piecing: list[Mapping[str, Any]], lefts: Mapping[str, float]) -> Iterator[JoinText]:
    for one in piecing:
        yield JoinText(
            piece=one["piece"],
            parts=len(one["parts"]),
            from_left_mm=tuple(x - lefts.get(one["piece"], 0.0) for x in one["lines_x_mm"]),
            allowance_mm=one["allowance_mm"],
        )


def _left_sides(row: Lay) -> dict[str, float]:
    pieces = row.inputs["orders"][0]["pieces"] if row.inputs["orders"] else []
    return {piece["name"]: min(x for x, _ in piece["outline"]) for piece in pieces}


def how_laid(row: Lay) -> list[str]:
    """What one must know to cut by it, a sentence each: the cloth as it lies, graded pieces, allowances."""
    asked, form = row.inputs, row.inputs["form"]
    halves = [name for name, lines in asked.get("lines", {}).items() if lines["half"]]
    has_repeat = any("repeat" in order["cloth"] for order in asked["orders"])
    matched = [f"{name} at {where}" for name, where in asked.get("matched", {}).items() if has_repeat]
    cannot = asked.get("cannot_match", []) if has_repeat else []
    edges = [f"{name.removeprefix('edge ')} {text}" for name, text in form.items() if name[:5] == "edge "]
    said = {
        "The cloth lies folded lengthwise, its selvedges together; each piece is cut through both layers.": (
            asked.get("folded")
        ),
        f"With their fold at the fold of the cloth: {', '.join(halves)}.": halves,
        f"One more of each comes of it than is asked for: {', '.join(asked.get('spare', []))}.": (
            asked.get("spare")
        ),
        f"Graded to the wearer: {', '.join(asked['graded'])}.": asked["graded"],
        f"Matched to the repeat: {'; '.join(matched)}.": matched,
        f"Cannot match: {'; '.join(cannot)}.": cannot,
        f"Allowance {form.get('allowance')}.": form.get("allowance"),
        f"Other allowances: {', '.join(edges)}.": edges,
    }
    return [sentence for sentence, holds in said.items() if holds]
