"""The quick comparison as one sheet: its forms together, what they come to, and each fault beside its box.

It is always filled in, with defaults at first: a button for one more row gives back all that was typed.
"""

import re
from collections.abc import Mapping
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.workroom.models import User
from fitting.comparing.calculation.case import Case
from fitting.comparing.forms.quick import (
    COUNTS,
    DEFAULTS,
    EXAMPLE,
    FRESH,
    NAMES,
    QuickLengthForm,
    QuickLevelForm,
    QuickNamesForm,
    QuickPieceForm,
    QuickPlateForm,
)
from fitting.comparing.forms.route import SKILL_ANSWERS
from fitting.comparing.loading.maker import maker_values
from fitting.comparing.loading.quick import QuickLine, QuickPiece, QuickValues
from fitting.wearers.models import Skill

ADD, EXAMPLE_ASKED, FORGET_SKILLS = "add ", "example", "forget skills"

Place = tuple[forms.Form, str]


class QuickSheet:
    """`typed` is what the page sent, None at first; `faults` are those that belong to no box."""

    def __init__(self, typed: Mapping[str, str] | None, *, user: User) -> None:
        asked = (typed or {}).get("do", "")
        data = dict(EXAMPLE if asked == EXAMPLE_ASKED else typed or DEFAULTS)
        added = asked.removeprefix(ADD) if asked.startswith(ADD) else ""
        self.counts = {kind: _make_room(data, kind, more=kind == added) for kind in COUNTS}
        self.asks_for_answer = typed is not None and not added
        self.user = user
        columns = [
            LINES[line].label if (line := data.get(f"level-{at}-line")) in LINES else f"level {at + 1}"
            for at in range(self.counts["level"])
        ]
        shared = {"user": user, "sixteenths": "sixteenths" in data}
        self.plate = QuickPlateForm(data, user=user)
        self.levels = [
            QuickLevelForm(data, prefix=f"level-{at}", spoken=column, **shared)
            for at, column in enumerate(columns)
        ]
        self.pieces = [
            QuickPieceForm(data, prefix=f"piece-{at}", spoken=f"piece {at + 1}", columns=columns, **shared)
            for at in range(self.counts["piece"])
        ]
        self.lengths = [
            QuickLengthForm(data, prefix=f"length-{at}", spoken=f"length {at + 1}", **shared)
            for at in range(self.counts["length"])
        ]
        self.names = QuickNamesForm(
            {f"name-{one}": text for one, text in NAMES.items()} | data, prefix="name"
        )
        asks_anew = asked == FORGET_SKILLS
        said = {name: "" if asks_anew else data.get(f"skill-{name}", "") for name in Skill.Name}
        self.skills = {name.value: level for name, level in said.items() if level in Skill.Level}
        self.kept = data.get("keep", "")
        self.faults: list[str] = []
        self.doubts: tuple[Fault, ...] = ()

    @property
    def asked_about(self) -> str:
        """The doubts in a word that says whether they are those that were answered: “they are so”."""
        return " ".join(map(str, self.doubts))

    @property
    def skill_words(self) -> list[tuple[str, str]]:
        return [(name, dict(SKILL_ANSWERS)[level].lower()) for name, level in self.skills.items()]

    @property
    def skill_answers(self) -> tuple[tuple[str, str], ...]:
        return SKILL_ANSWERS

    @property
    def every_form(self) -> list[forms.Form]:
        return [self.plate, *self.levels, *self.pieces, *self.lengths]

    @property
    def count_boxes(self) -> list[tuple[int, str]]:
        """How many rows of each kind there are, and the box that carries it."""
        return [(count, COUNTS[kind][0]) for kind, count in self.counts.items()]

    @property
    def faulty_boxes(self) -> list[forms.BoundField]:
        return [form[name] for form in self.every_form for name in form.errors if name in form.fields]

    @property
    def is_faulty(self) -> bool:
        return bool(self.faults) or any(form.errors for form in self.every_form)

    def case(self) -> Case | None:
        """The case that was typed; None where it is not sound, and then every fault stands on the sheet.

        Figures that few bodies have are asked about once: None until they are corrected or kept.
        """
        if self.is_faulty:
            return None
        self._check_names()
        if not self._pieces_read() and not any(form.cleaned_data["reading"] for form in self.lengths):
            self.faults.append("Type at least one reading off the plate.")
        if self.is_faulty:
            return None
        values = self.values()
        try:
            case = values.case(maker_values(self.user))
        except Faults as faults:
            for fault in faults.faults:
                self._place(fault)
            return None
        self.doubts = values.doubts(self.user.system)
        return None if self.doubts and self.asked_about != self.kept else case

    def values(self) -> QuickValues:
        """What was typed, once it has been found sound."""
        plate = {name: value for name, value in self.plate.cleaned_data.items() if name != "sixteenths"}
        return QuickValues(
            **plate,
            pieces=tuple(self._piece(at) for at in self._pieces_read()),
            levels=tuple(QuickLine(**form.cleaned_data) for form in self.levels if _line(form)),
            lengths=tuple(QuickLine(**form.cleaned_data) for form in self.lengths if _line(form)),
            skills=self.skills,
        )

    def _pieces_read(self) -> list[int]:
        """Numbers of the rows with a reading in them: an empty row is no piece."""
        return [at for at, form in enumerate(self.pieces) if any(_boxes(form, "reading_"))]

    def _piece(self, at: int) -> QuickPiece:
        form = self.pieces[at]
        lines = [_line(level) for level in self.levels]

        def by_line(box: str) -> dict[str, Any]:
            found = zip(lines, _boxes(form, box), strict=True)
            return {line: length for line, length in found if line and length}

        return QuickPiece(
            name=form.cleaned_data["name"] or f"piece {at + 1}",
            cut=form.cleaned_data["cut"],
            on_fold=form.cleaned_data["on_fold"],
            readings=by_line("reading_"),
            take_up=by_line("take_up_"),
        )

    def _check_names(self) -> None:
        """A column or a length in use needs a level or length of its own."""
        for group in (self.levels, self.lengths):
            seen: set[str] = set()
            for at, form in enumerate(group):
                if _line(form) in seen:
                    form.add_error("line", "This one is there already.")
                elif not _line(form) and self._is_used(form, at):
                    form.add_error("line", "Say which this is.")
                seen |= {_line(form)} - {""}

    def _is_used(self, form: forms.Form, at: int) -> bool:
        own = (form.cleaned_data.get(name) for name in ("overlap", "gap", "body", "ease", "reading"))
        in_column = (_boxes(piece, "reading_")[at] for piece in self.pieces if form in self.levels)
        return any((*own, *in_column))

    def _place(self, fault: Fault) -> None:
        """Put a fault of the file beside the box that it comes from; without one, at the top of the sheet."""
        sentence = fault.sentence[:1].upper() + fault.sentence[1:]
        for pattern, box_of in _PLACES:
            found = re.fullmatch(pattern, fault.where)
            if found and (place := box_of(self, *found.groups())):
                place[0].add_error(place[1], sentence)
                return
        self.faults.append(sentence)

    def box(self, line: str, name: str) -> Place | None:
        """The box of that name in the column or row of a level or length."""
        rows = (*self.levels, *self.lengths)
        return next(((form, name) for form in rows if _line(form) == line and name in form.fields), None)

    def cell(self, number: str, name: str, line: str) -> Place | None:
        """The box of a piece, numbered as in the file, in the column of a level."""
        lines = [_line(level) for level in self.levels]
        return (
            (self.pieces[self._pieces_read()[int(number)]], f"{name}{lines.index(line)}")
            if line in lines
            else None
        )


# A path in the file, and the box that it was typed into.
_PLACES = (
    (r"scale.*", lambda sheet: (sheet.plate, "scale")),
    (r"seam_allowance.*", lambda sheet: (sheet.plate, "allowance_size")),
    (r"rule_division", lambda sheet: (sheet.plate, "rule")),
    (r"pieces\[(\d+)]\.readings\.(.+)", lambda sheet, number, line: sheet.cell(number, "reading_", line)),
    (r"pieces\[(\d+)]\.take_up\.(.+)", lambda sheet, number, line: sheet.cell(number, "take_up_", line)),
    (r"fastening\.overlap\.(.+)", lambda sheet, line: sheet.box(line, "overlap")),
    (r"fastening\.lacing_gap\.(.+)", lambda sheet, line: sheet.box(line, "gap")),
    (r"lengths\.(.+?)(?:\.reading)?", lambda sheet, line: sheet.box(line, "reading")),
    (r"measures\.(?:girths|lengths)\.(.+)", lambda sheet, line: sheet.box(line, "body")),
    (r"ease\.(.+)", lambda sheet, line: sheet.box(line, "ease")),
)


def _line(form: forms.Form) -> str:
    return form.cleaned_data.get("line", "")


def _boxes(form: forms.Form, start: str) -> list[Any]:
    """What was typed into the boxes of a row, column by column."""
    return [form.cleaned_data.get(name) for name in form.fields if name.startswith(start)]


def _make_room(data: dict[str, str], kind: str, *, more: bool) -> int:
    """How many rows of a kind there are; one more where it was asked for, with what a fresh row holds."""
    box, most = COUNTS[kind]
    typed = data.get(box, "")
    count = min(int(typed), most) if typed.isdecimal() and len(typed) < 4 else 1
    if more and count < most:
        data |= {f"{kind}-{count}-{name}": text for name, text in FRESH[kind].items()}
        count += 1
    data[box] = str(count)
    return count
