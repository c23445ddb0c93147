"""A step of the working pattern as a form: what it asks is chosen from what the pattern has.

A form says its boxes and what they ask for (`asked`). It is valid only where the step can be taken: what
comes of it stands in `outcome`, and a fault of the step beside the box that it is about.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from django import forms
from django.utils.text import slugify

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import User
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.calculation.working.steps import Outcome, take
from fitting.pattern.forms.sheet import BoxTable
from fitting.pattern.loading.wanted import Wanted
from fitting.pattern.showing.pattern_places import pair_key

LONGEST_NAME = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxGroup:
    """Boxes that belong together. `css`: by it a page hides those that another choice leaves unused."""

    boxes: Sequence[forms.BoundField]
    legend: str = ""
    css: str = ""
    says: str = ""


class PieceField(forms.ChoiceField):
    def offer(self, pattern: Pattern) -> None:
        self.choices = _with_none(self, [(piece.name, piece.name) for piece in pattern.pieces])


class PiecesField(forms.MultipleChoiceField):
    widget = forms.CheckboxSelectMultiple

    def offer(self, pattern: Pattern) -> None:
        self.choices = [(piece.name, piece.name) for piece in pattern.pieces]


class EdgeField(forms.TypedChoiceField):
    """An edge of a piece, as the pair of their names: every pair stands in the list."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(coerce=pair_of, empty_value=None, **kwargs)

    def offer(self, pattern: Pattern) -> None:
        self.choices = _with_none(self, edge_choices(pattern))


class EdgesField(forms.TypedMultipleChoiceField):
    widget = forms.CheckboxSelectMultiple

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(coerce=pair_of, **kwargs)

    def offer(self, pattern: Pattern) -> None:
        self.choices = edge_choices(pattern)


class DartField(EdgeField):
    """A dart of a piece: the name, and which of its darts from 0."""

    def offer(self, pattern: Pattern) -> None:
        self.choices = [
            (pair_key(piece.name, number), f"{piece.name}: dart {number + 1}")
            for piece in pattern.pieces
            for number in range(sum(mark.kind == "dart" for mark in piece.marks))
        ]


def _with_none(field: forms.Field, choices: list[Any]) -> list[Any]:
    return choices if field.required else [("", "–"), *choices]


def pair_of(key: str) -> tuple[Any, Any]:
    one, other = json.loads(key)
    return one, other


def edge_choices(pattern: Pattern) -> list[Any]:
    return [
        (piece.name, [(pair_key(piece.name, edge), f"{piece.name}: {edge}") for edge in piece.edges])
        for piece in pattern.pieces
        if piece.edges
    ]


class NameField(forms.CharField):
    """The name of a piece to be made; left empty, the form gives one."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(required=False, max_length=LONGEST_NAME, **kwargs)


class StepForm(LengthsInUnit, forms.Form):
    """`boxes`: by the place that a fault of the calculation names, the box that it stands beside."""

    step: ClassVar[str]  # its name in the table of steps
    title: ClassVar[str]
    says: ClassVar[str]
    boxes: ClassVar[Mapping[str, str]] = {}
    comes_filled: ClassVar[bool] = False  # with all that it asks: what it does can be shown at once
    needs: ClassVar[str] = ""  # what a pattern must have for it, where not every one has it
    do_not_call_in_templates = True  # a list of steps is shown as well as a filled one

    def __init__(
        self, data: Any = None, *, pattern: Pattern, wanted: Wanted, user: User, initial: Any = None
    ) -> None:
        self.pattern, self.wanted, self.reader = pattern, wanted, user
        self.outcome: Outcome | None = None
        self.step_asked: Any = None
        super().__init__(data, user=user, initial=initial)
        self.add_rows()
        for field in self.fields.values():
            if hasattr(field, "offer"):
                field.offer(pattern)
            if isinstance(field, LengthFormField):
                field.denominator = user.denominator

    @classmethod
    def slug(cls) -> str:
        return slugify(cls.step)

    @classmethod
    def can_be_taken(cls, pattern: Pattern) -> bool:
        """Whether the pattern has what it is about."""
        return True

    def add_prefix(self, field_name: str) -> str:
        """Names of boxes hold the words of levels; on the page no id may hold a space."""
        return super().add_prefix("-".join(field_name.split()))

    def add_rows(self) -> None:
        """Fields whose number follows from the pattern."""

    def asked(self) -> Any:
        """Of what was typed, the value that the step takes. Raises Faults."""
        raise NotImplementedError

    def groups(self) -> Sequence[BoxGroup]:
        in_tables = {box.name for table in self.tables() for row in table.rows for box in row.boxes}
        return (BoxGroup(boxes=[self[name] for name in self.fields if name not in in_tables]),)

    def tables(self) -> Sequence[BoxTable]:
        return ()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors:
            try:
                self.step_asked = self.asked()
                self.outcome = take(self.pattern, self.step_asked, self.reader.system)
            except Faults as faults:
                for fault in faults.faults:
                    self.add_error(self._box_of(fault.where), fault.sentence)
        return cleaned

    def _box_of(self, where: str) -> str | None:
        """The box that a fault is about; None for the whole form."""
        part = where.partition(".")[0].partition("[")[0]
        names = (where, self.boxes.get(where), part, self.boxes.get(part))
        return next((name for name in names if name in self.fields), None)

    def mm(self, name: str) -> float | None:
        """The millimetres typed, exactly; None for an empty box."""
        typed = self.cleaned_data.get(name)
        return float(typed.exact_mm) if isinstance(typed, TypedLength) else None

    def free_name(self, box: str, wanted: str) -> str:
        """What was typed for a new piece; else `wanted`, with a number where a piece is called that."""
        if typed := self.cleaned_data.get(box):
            return typed
        taken = {piece.name for piece in self.pattern.pieces}
        free, number = wanted[:LONGEST_NAME], 2
        while free in taken:
            free, number = f"{wanted[: LONGEST_NAME - 4]} {number}", number + 1
        return free

    def of_one_piece(self, boxes: Iterable[str]) -> tuple[str, tuple[str, ...]]:
        """The piece that the edges in these boxes are of, and their names. Raises Faults."""
        pairs = [(box, *pair) for box in boxes if (pair := self.cleaned_data.get(box))]
        piece = pairs[0][1]
        faults = [
            Fault(box, f"This edge is of {other}, the first is of {piece}: choose edges of one piece.")
            for box, other, _ in pairs
            if other != piece
        ]
        if faults:
            raise Faults(faults)
        return piece, tuple(dict.fromkeys(edge for _, _, edge in pairs))
