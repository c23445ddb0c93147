"""A proportional draft drawn out for its wearer: which measure it took, and what became of each figure.

It is drawn out before `assess`, which knows lengths only: the case of a comparison holds those of this
wearer, and what they were in parts is kept beside it. The pattern is drawn to the measure as taken, so that
the doubt of that counts once, in the body.
"""

from collections.abc import Mapping
from typing import Any

from catalogue.lengths.calculation.doubt import u_of, value_of
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from catalogue.plates.calculation.draft import Draft
from catalogue.plates.calculation.girth import Reckoning, Term
from catalogue.plates.calculation.readings import PlateReadings
from catalogue.plates.calculation.sums import page_text
from catalogue.plates.loading import draft_of, plate_values
from catalogue.plates.models.plate import Plate
from fitting.comparing.loading.body import MeasuresUsed
from fitting.wearers.calculation.body import BodyMeasure


def draft_measure_mm(plate: Plate, used: MeasuresUsed | None) -> float | None:
    """The wearer's measure that a draft is in parts of; None of another plate, and where it is not taken."""
    draft = draft_of(plate)
    line = used.lines.get(draft.line) if draft and used else None
    return line.measure.mm if line else None


def growth_of(plate: Plate, body_mm: float | None) -> float:
    """How many times as long a figure in parts is for a body; 1 on another plate, and for no known body."""
    draft = draft_of(plate)
    return value_of(draft.factor(body_mm)) if draft and body_mm is not None else 1.0


def drafted_plate(plate: Plate, used: MeasuresUsed) -> PlateReadings:
    """What was read off the plate, a draft in lengths for the wearer as dressed beneath.

    Raises KeyError where the wearer's measure that the draft is in parts of is not among those used.
    """
    values = plate_values(plate)
    return values.drafted_for(used.lines[values.draft.line].beneath.mm) if values.draft else values


def drafting_of(plate: Plate, used: MeasuresUsed) -> dict[str, Any] | None:
    """How a draft was drawn out, as plain JSON: the measures and each line's figures. None of another plate.

    `moves_mm`: how far the line would come out otherwise, were the measure off by its doubt.
    """
    drawn = plate_values(plate)
    if drawn.draft is None:
        return None
    measure = used.lines[drawn.draft.line].beneath
    reckoning = Reckoning.of(drawn)
    terms = {level: reckoning.girth(level).terms for level in drawn.levels}
    terms |= {line: reckoning.length(line).terms for line in drawn.lengths}
    return {
        "line": drawn.draft.line,
        "is_half": drawn.draft.is_half,
        "drawn_for_mm": drawn.draft.drawn_for_mm,
        "body_mm": measure.mm,
        "doubt_mm": measure.doubt_mm,
        "lines": {line: _line(of_line, drawn.draft, measure) for line, of_line in terms.items()},
    }


def _line(terms: tuple[Term, ...], draft: Draft, measure: BodyMeasure) -> dict[str, Any]:
    in_parts_mm = sum(term.drawn_mm for term in terms if not term.reading.is_plain)
    drafted = draft.length(in_parts_mm, body_mm=measure.mm, doubt_mm=measure.doubt_mm)
    return {
        "figures": [
            {"name": term.name, "net_mm": term.reading.net_mm, "is_plain": term.reading.is_plain}
            for term in terms
        ],
        "moves_mm": u_of(drafted),
    }


def drafting_words(drafting: Mapping[str, Any], writing: Writing) -> str:
    """What the draft was drawn for and for what it is drawn out, with what that means for the doubt."""
    draft, drawn_for, own = _read(drafting, writing)
    measure = f"{'half ' if draft.is_half else ''}{LINES[draft.line].label}"
    doubt = writing.length(draft.share_mm(drafting["doubt_mm"]))
    return (
        f"Its plate is a proportional draft for {measure} {drawn_for}, here drawn out for the wearer’s own "
        f"of {own}: each figure in parts × {own} ÷ {drawn_for}. Plain figures, allowances, overlap and gap "
        f"stay. The pattern is drawn to the measure as it was taken, so its doubt, ± {doubt}, counts once, "
        "in the body, and not again in the garment."
    )


def figures_words(drafting: Mapping[str, Any], line: str, writing: Writing) -> str:
    """The figures of one line as drawn, and as drawn out; empty where the draft has none there."""
    of_line = drafting["lines"].get(line)
    if of_line is None:
        return ""
    draft, drawn_for, own = _read(drafting, writing)
    text = ", ".join(
        f"{one['name']} {page_text(one['net_mm'], writing.system)} plain"
        if one["is_plain"]
        else f"{one['name']} {page_text(one['net_mm'], writing.system)} × {own} ÷ {drawn_for} ≈ "
        + page_text(one["net_mm"] * draft.share_mm(drafting["body_mm"]) / draft.drawn_for_mm, writing.system)
        for one in of_line["figures"]
    )
    moves = f" A measure off by its doubt would move this ± {writing.length(of_line['moves_mm'])}."
    return f"{text}.{moves if of_line['moves_mm'] else ''}"


def _read(drafting: Mapping[str, Any], writing: Writing) -> tuple[Draft, str, str]:
    """The draft, what it was drawn for and the wearer's own share of that measure."""
    draft = Draft(**{name: drafting[name] for name in ("line", "is_half", "drawn_for_mm")})
    return (
        draft,
        writing.length(draft.drawn_for_mm),
        writing.length(draft.share_mm(drafting["body_mm"])),
    )
