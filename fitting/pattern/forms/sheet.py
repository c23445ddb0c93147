"""A sheet of pattern work as a form: boxes filled from what is known, an answer as soon as it is sound.

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
from fitting.pattern.loading.facts import GarmentFacts
from fitting.pattern.loading.sheet_answer import SheetAnswer
from fitting.pattern.models import WorkNote


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

    kind: ClassVar[WorkNote.Kind]
    says: ClassVar[str]
    # Whether what fills its boxes is all that an answer needs.
    answers_at_once: ClassVar[bool] = False
    do_not_call_in_templates = True  # a list of sheets is shown as well as a filled one

    def __init__(
        self, data: Any = None, *, known: GarmentFacts, user: User, given: Mapping[str, Any] | None = None
    ) -> None:
        self.known, self.reader, self.worked = known, user, None
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

    def add_length(self, name: str, label: str, *, signed: bool = False) -> None:
        field = LengthFormField(required=False, label=label, unit=self.reader.system, signed=signed)
        field.widget.attrs |= {"placeholder": self.reader.system, "aria-label": label, "size": 8}
        self.fields[name] = field

    def add_word(self, name: str, label: str, *, size: int = 18) -> None:
        field = forms.CharField(required=False, label=label, max_length=80)
        field.widget.attrs |= {"aria-label": label, "size": size}
        self.fields[name] = field

    def add_number(self, name: str, label: str, **limits: Any) -> None:
        field = forms.IntegerField(required=False, label=label, **limits)
        field.widget.attrs |= {"aria-label": label}
        self.fields[name] = field

    def add_factor(self, name: str, label: str) -> None:
        field = forms.FloatField(required=False, label=label, min_value=1, max_value=20)
        field.widget.attrs |= {"aria-label": label}
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


def _box(value: Any) -> Any:
    """A float is millimetres, whatever box it fills."""
    return TypedLength(text="", um=round(1000 * value)) if isinstance(value, float) else value
