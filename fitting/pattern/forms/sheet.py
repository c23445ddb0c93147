"""The page of a sum of pattern work as a form: boxes filled from what is known, an answer when it is sound.

A sheet says its boxes, what fills them (`fill`) and what it comes to (`reckon`). Faults of the calculation
go beside the box that they name.
"""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, ClassVar

from django import forms

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import User
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import PatternSum
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.loading.facts import GarmentFacts


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxRow:
    label: str
    boxes: Sequence[forms.BoundField]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxTable:
    """Boxes in rows, where a sheet asks the same of several seams or levels."""

    caption: str
    heads: Sequence[str]
    rows: Sequence[BoxRow]
    says: str = ""


class WorkSheet(LengthsInUnit, forms.Form):
    """`worked` is there once the form is valid."""

    # Whether what fills its boxes is all that an answer needs.
    answers_at_once: ClassVar[bool] = False

    def __init__(
        self,
        asked: PatternSum[Any],
        data: Any = None,
        *,
        known: GarmentFacts,
        user: User,
        given: Mapping[str, Any] | None = None,
    ) -> None:
        self.asked, self.known, self.reader, self.worked = asked, known, user, None
        super().__init__(data, user=user, initial=given if given is not None else None)
        self.add_rows()
        if given is None:
            self.initial = {name: _box(value) for name, value in self.fill().items() if value is not None}
        for field in self.fields.values():
            if isinstance(field, LengthFormField):
                field.denominator = user.denominator
        if self.answers_at_once and data is None and given is None:
            self._answer_at_once()

    def _answer_at_once(self) -> None:
        self.cleaned_data = dict(self.initial)
        with suppress(Faults):
            self.worked = self.reckon()

    def add_prefix(self, field_name: str) -> str:
        """Names of boxes hold the words of levels; on the page no id may hold a space."""
        return super().add_prefix(field_name.replace(" ", "-"))

    def add_rows(self) -> None:
        """Fields whose number follows from the garment."""

    def fill(self) -> dict[str, Any]:
        """First values: millimetres for lengths."""
        return {}

    def reckon(self) -> SheetAnswer:
        raise NotImplementedError

    def tables(self) -> Sequence[BoxTable]:
        return ()

    def single_boxes(self) -> list[forms.BoundField]:
        """The boxes that stand in no table."""
        in_tables = {box.name for table in self.tables() for row in table.rows for box in row.boxes}
        return [self[name] for name in self.fields if name not in in_tables]

    def add_box(self, name: str, one: ask.Input) -> None:
        """A box of a table: it may stay empty, and says its label to those who do not see the table."""
        field = field_of(one, self.reader.system)
        field.required = False
        field.widget.attrs["aria-label"] = one.label
        if isinstance(one, ask.Length):
            field.widget.attrs |= {"placeholder": self.reader.system, "size": 8}
        self.fields[name] = field

    def mm(self, name: str) -> float | None:
        """The millimetres typed; None for an empty box."""
        typed = self.cleaned_data.get(name)
        return typed.mm if isinstance(typed, TypedLength) else None

    def mm_or_0(self, name: str) -> float:
        return self.mm(name) or 0.0

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors:
            try:
                self.worked = self.reckon()
            except Faults as faults:
                for fault in faults.faults:
                    name = self.box_of(fault.where)
                    self.add_error(name, fault.sentence)
        return cleaned

    def box_of(self, where: str) -> str | None:
        """The box that a fault of the calculation is about; None for the whole sheet."""
        return next((name for name in (where, f"{where}_mm") if name in self.fields), None)

    def inputs(self) -> dict[str, str]:
        """What was typed, each length with its unit: from these the sheet can be filled again."""
        kept = {}
        for name in self.fields:
            value = self.cleaned_data.get(name)
            if isinstance(value, TypedLength):
                kept[name] = value.text
            elif value not in (None, "", False):
                kept[name] = str(value)
        return kept


def field_of(one: ask.Input, system: str) -> forms.Field:
    """What reads the box of an input; a bare length is one in `system`."""
    asked: dict[str, Any] = {"label": one.label, "required": one.is_needed}
    match one:
        case ask.Length():
            return LengthFormField(unit=system, signed=one.is_signed, **asked)
        case ask.Percent():
            return forms.FloatField(min_value=0, max_value=100, **asked)
        case ask.Whole():
            return forms.IntegerField(min_value=one.least, max_value=one.most, **asked)
        case ask.Number() if one.offered:
            choices = [(f"{value:g}", words) for value, words in one.offered.items()]
            return forms.ChoiceField(label=one.label, choices=choices)
        case ask.Number():
            return forms.FloatField(min_value=one.least, max_value=one.most, **asked)
        case ask.Choice():
            return forms.ChoiceField(
                label=one.label, choices=[(word.value, word.value) for word in one.words]
            )
        case ask.YesNo():
            return forms.BooleanField(**asked)
    return forms.CharField(max_length=80, widget=forms.TextInput(attrs={"size": one.size}), **asked)


def _box(value: Any) -> Any:
    """A float is millimetres, whatever box it fills."""
    return TypedLength(text="", um=round(1000 * value)) if isinstance(value, float) else value
