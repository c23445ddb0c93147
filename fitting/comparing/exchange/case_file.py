"""A case from its JSON: what `assess` reads, and what a stored comparison keeps.

Beside the documented keys a stored case may carry: `scale.ratio_across`, `measures.doubt` as a table by line,
`measures.stale`, a length as a list of readings, `limits.grade_far` and `limits.grade_too_far`, `hours` by
route, and whether there are `other_patterns` in hand and a `draft_in_catalogue`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.workroom.reader.entries import Entry, Notes, Table
from catalogue.workroom.reader.file_head import check_format
from catalogue.workroom.reader.strict_json import load
from fitting.comparing.calculation.case import Case, Patterns, SeamCount
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.routes import GUESSED_HOURS, SKILL_OF, Route, SkillLevel
from fitting.comparing.exchange.plate_part import is_known, read_plate
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.wearers.calculation.body import LENGTH_TRAINED_HAND_MM, TRAINED_HAND_MM, Body, BodyMeasure

FORMAT, VERSION = "plate-and-toile assessment", 1
KEYS = (
    *(
        "format",
        "version",
        "scale",
        "seam_allowance",
        "rule_division",
        "drawing_doubt",
        "pieces",
        "fastening",
    ),
    *(
        "lengths",
        "measures",
        "ease",
        "fit",
        "limits",
        "purpose",
        "seams",
        "skills",
        "stand",
        "patterns_in_hand",
    ),
    *("days_left", "hours_a_day", "hours", "other_patterns", "draft_in_catalogue"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseFile:
    """A case and, by path, the defaults that stood in for what was left out."""

    case: Case
    defaults_used: Mapping[str, str]


def read_case(text: str) -> CaseFile:
    """A case from JSON text. Raises Faults with everything that is wrong with it."""
    return case_from_json(load(text))


def case_from_json(value: Any) -> CaseFile:
    """A case from decoded JSON. Raises Faults."""
    notes = Notes()
    case = _case(Entry(value, notes).table(KEYS))
    if not notes.faults:
        notes.faults.extend(case.faults())
    if notes.faults:
        raise Faults(notes.faults)
    _note_level_defaults(case, notes.defaults)
    return CaseFile(case=case, defaults_used=notes.defaults)


def _case(top: Table) -> Case:
    check_format(top, FORMAT, VERSION)
    body = _body(top["measures"])
    lines = {*LINES, *body.girths, *body.lengths}
    plate = read_plate(top, lines)
    lines |= {*plate.levels, *plate.lengths}
    return Case(
        plate=plate,
        body=body,
        ease_mm={key: entry.length(signed=True) for key, entry in _by_line(top["ease"], lines).items()},
        fit={key: entry.word(Fit) or Fit.FITTED for key, entry in _by_line(top["fit"], lines).items()},
        limits=_limits(top["limits"]),
        purpose=top["purpose"].word(Purpose, Purpose.THIS_GARMENT) or Purpose.THIS_GARMENT,
        seams=_seams(top["seams"]),
        skills=_skills(top["skills"]),
        stand_mm=_stand(top["stand"], lines),
        patterns_in_hand=_patterns(top["patterns_in_hand"], are_others=_is_said(top, "other_patterns")),
        has_draft=_is_said(top, "draft_in_catalogue"),
        days_left=top["days_left"].number() if top["days_left"].is_given else None,
        hours_a_day=_hours_a_day(top["hours_a_day"]),
        hours=_hours(top["hours"]),
    )


def _is_said(table: Table, key: str) -> bool:
    """A yes or no that only a stored case carries: left out, it is no default that was used."""
    return key in table and table[key].yes_or_no(False)


def _note_level_defaults(case: Case, defaults: dict[str, str]) -> None:
    """What was left out at the lines compared: each had a default of its own."""
    for line in (*case.levels, *case.lengths):
        if line not in case.ease_mm:
            defaults[f"ease.{line}"] = "0 in"
        if line not in case.fit:
            defaults[f"fit.{line}"] = Fit.FITTED.value


def _by_line(entry: Entry, lines: set[str]) -> dict[str, Entry]:
    return {key: one for key, one in entry.table().entries.items() if is_known(one, key, lines)}


def _body(measures: Entry) -> Body:
    table = measures.table(("state", "girths", "lengths", "doubt", "length_doubt", "stale"))
    if not table["girths"].is_given:
        table["girths"].fault("This is missing: give the girths of the wearer.")
    girths, lengths = table["girths"].table().entries, table["lengths"].table().entries
    state, doubt = table["state"], table["doubt"]
    own, girth_mm, length_mm = {}, TRAINED_HAND_MM, LENGTH_TRAINED_HAND_MM
    if doubt.is_table:
        own = {key: one.length() for key, one in _by_line(doubt, {*girths, *lengths}).items()}
    else:
        girth_mm = doubt.length("3/8 in")
        # Who measured so well round the body measured its lengths no worse.
        better = doubt.text() if doubt.is_given and girth_mm < LENGTH_TRAINED_HAND_MM else None
        length_mm = table["length_doubt"].length(better or "1/4 in")
    if not state.is_given:
        state.default("not said")

    def measured(entries: Mapping[str, Entry], doubt_mm: float) -> dict[str, BodyMeasure]:
        return {
            key: BodyMeasure(mm=one.length(more_than_nothing=True), doubt_mm=own.get(key, doubt_mm))
            for key, one in entries.items()
        }

    return Body(
        state=(state.text() or "") if state.is_given else "",
        girths=measured(girths, girth_mm),
        lengths=measured(lengths, length_mm),
        stale=(table["stale"].text() or "") if "stale" in table else "",
    )


def _limits(entry: Entry) -> Limits:
    girths = ("fits", "add", "take_off", "per_edge", "edges_that_may_take")
    table = entry.table((*girths, "length_fits", "length_alter", "grade_far", "grade_too_far"))
    edges = table["edges_that_may_take"]
    limits = Limits(
        fits_mm=table["fits"].length("1/2 in"),
        add_mm=table["add"].length("3 in"),
        take_off_mm=table["take_off"].length("3 in"),
        per_edge_mm=table["per_edge"].length("1/2 in"),
        edges_that_may_take=edges.whole() if edges.is_given else None,
        length_fits_mm=table["length_fits"].length("3/8 in"),
        length_alter_mm=table["length_alter"].length("1 1/2 in"),
        **{f"{key}_mm": table[key].length() for key in ("grade_far", "grade_too_far") if key in table},
    )
    for fault in limits.faults():
        table[fault.where].fault(fault.sentence)
    return limits


def _seams(entry: Entry) -> SeamCount:
    if not entry.is_given:
        entry.default("all recorded")
        return SeamCount()
    table = entry.table(("recorded", "inferred", "tried", "unknown"))
    return SeamCount(
        recorded=table["recorded"].whole(0, most=10_000),
        inferred=table["inferred"].whole(0, most=10_000),
        tried=table["tried"].whole(0, most=10_000),
        unknown=table["unknown"].whole(0, most=10_000),
    )


def _skills(entry: Entry) -> dict[str, SkillLevel]:
    table = entry.table(SKILL_OF.values())
    asked = {name: table[name].word(SkillLevel, SkillLevel.NOT_ASKED) for name in SKILL_OF.values()}
    return {name: skill or SkillLevel.NOT_ASKED for name, skill in asked.items()}


def _patterns(entry: Entry, *, are_others: bool) -> Patterns:
    """True where the parts are there, false where there are none; a stored case may have `are_others`."""
    if not entry.is_given:
        entry.default("none")
        return Patterns.NONE
    if entry.yes_or_no(False):
        return Patterns.WITH_PARTS
    return Patterns.WITHOUT_PARTS if are_others else Patterns.NONE


def _stand(entry: Entry, lines: set[str]) -> dict[str, float] | None:
    if not entry.is_given:
        entry.default("none")
        return None
    girths = entry.table(("girths",))["girths"]
    if not girths.is_given:
        girths.fault("This is missing: give the girths of the stand over the state of dress.")
    return {key: one.length(more_than_nothing=True) for key, one in _by_line(girths, lines).items()}


def _hours_a_day(entry: Entry) -> float:
    hours = entry.number(2)
    if hours == 0 or hours > 24:
        entry.fault("A day has more than 0 hours to work, and no more than 24.")
    return hours


def _hours(entry: Entry) -> dict[Route, float]:
    table = entry.table(Route)
    return {
        route: table[route].number() if route in table else guess for route, guess in GUESSED_HOURS.items()
    }
