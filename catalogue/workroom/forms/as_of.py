"""Two people at one record: the second to save sees both versions, and nothing that was typed is lost.

A form of a row carries when that row was last changed, as it was read. To save is to claim the row in one
statement: whoever comes second finds another time there, and is shown what it holds beside what they typed.
"""

import hashlib
import re
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Self

from django import forms
from django.utils import timezone

MEANWHILE = (
    "This was changed on another screen while you typed. Yours is still in the boxes, not kept yet: compare, "
    "then save what is right."
)

# What a form is given for one answer only, or as a suggestion for what is empty; the rest its class asks for.
OF_ONE_REQUEST = {"data", "files", "instance", "initial"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Differing:
    """A field whose value as it is now is not what was typed; both as a person reads them."""

    label: str
    now: str
    typed: str


def differing(fresh: forms.BaseForm, typed: forms.BaseForm) -> tuple[Differing, ...]:
    """The boxes of two forms of one record that differ: as it is now, and as somebody typed it."""
    told = []
    for name, field in typed.fields.items():
        if name == "as_of" or isinstance(field, forms.FileField):
            continue
        now, then = _read(fresh[name]), _read(typed[name])
        if now != then:
            told.append(Differing(label=typed[name].label, now=now or "empty", typed=then or "empty"))
    return tuple(told)


class AsOf:
    """Mixin of model forms, first in line. Without the hidden box, as for a new row, nothing is checked."""

    # None: nobody else changed the row meanwhile.
    differing: tuple[Differing, ...] | None = None

    def __new__(cls, *args: Any, **kwargs: Any) -> Self:
        """Here all that the form is given passes by; its class keeps some of it before `__init__` below."""
        form = super().__new__(cls)
        form._asked_for = {name: given for name, given in kwargs.items() if name not in OF_ONE_REQUEST}
        return form

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["as_of"] = forms.CharField(required=False, widget=forms.HiddenInput)
            self.initial["as_of"] = self.instance.changed_at.isoformat()

    def full_clean(self) -> None:
        super().full_clean()
        if self.is_bound and self.instance.pk and not self.errors and not self._claim():
            self._tell_both()

    def _claim(self) -> bool:
        """Mark the row as changed now, if nobody did since it was read."""
        text = self.cleaned_data.pop("as_of", "")
        if not text:
            return True
        try:
            as_of = datetime.fromisoformat(text)
        except ValueError:
            return False
        if timezone.is_naive(as_of):
            return False
        rows = type(self.instance)._base_manager.filter(pk=self.instance.pk, changed_at=as_of)
        return bool(rows.update(changed_at=timezone.now()))

    def _tell_both(self) -> None:
        now = type(self.instance)._base_manager.filter(pk=self.instance.pk).first()
        if now is None:
            self.add_error(None, "This was deleted on another screen while you typed.")
            return
        fresh = type(self)(instance=now, **self._asked_for)
        self.differing = differing(fresh, self)
        # A second save writes what stands in the boxes, knowingly.
        self.data = self.data.copy()
        self.data[self.add_prefix("as_of")] = now.changed_at.isoformat()
        self.add_error(None, forms.ValidationError(MEANWHILE, code="meanwhile"))


# Of one table in one page: a page that claims thousands would be minutes in drawing.
MOST_ROWS = {"max_num": 200, "absolute_max": 200}


class AsOfRows:
    """The same for a table of rows under one record; mixin of formsets. `rows_now`: what stands there."""

    rows_now: tuple[str, ...] = ()

    def __init__(self, data: Any = None, *args: Any, **kwargs: Any) -> None:
        super().__init__(data, *args, **kwargs)
        if self.is_bound and self.management_form.is_valid():
            self.data = self._with_rows_gone_as_new(self.data.copy())
            # Counted once, from what was posted.
            self.__dict__.pop("management_form", None)

    @property
    def as_of(self) -> str:
        """A word for the rows as they are. A new one for every change."""
        rows = self.get_queryset().values_list("pk", "changed_at").order_by("pk")
        said = ";".join(f"{pk} {changed_at.isoformat()}" for pk, changed_at in rows)
        return hashlib.sha256(said.encode()).hexdigest()[:32]

    @property
    def as_of_name(self) -> str:
        return f"{self.prefix}-AS_OF"

    def _with_rows_gone_as_new(self, data: Any) -> Any:
        """Rows that somebody deleted meanwhile move behind the others, as new ones.

        A form without its row would be passed over when the table is saved."""
        here = {str(pk) for pk in self.get_queryset().values_list("pk", flat=True)}
        numbers = range(self.management_form.cleaned_data["INITIAL_FORMS"])
        gone = [number for number in numbers if data.get(f"{self.prefix}-{number}-id") not in here]
        order = [number for number in range(self.total_form_count()) if number not in gone]
        order[len(numbers) - len(gone) : len(numbers) - len(gone)] = gone
        said = {name: data[name] for name in data if re.match(rf"{self.prefix}-\d+-", name)}
        for name in said:
            del data[name]
        for new, old in enumerate(order):
            start = f"{self.prefix}-{old}-"
            for name, value in said.items():
                if name.startswith(start):
                    is_lost_key = old in gone and name == f"{start}id"
                    data[f"{self.prefix}-{new}-{name.removeprefix(start)}"] = "" if is_lost_key else value
        data[f"{self.prefix}-INITIAL_FORMS"] = str(len(numbers) - len(gone))
        return data

    def clean(self) -> None:
        super().clean()
        typed_over = self.data.get(self.as_of_name)
        if typed_over and typed_over != self.as_of:
            self.rows_now = tuple(str(row) for row in self.get_queryset().all())
            raise forms.ValidationError(MEANWHILE, code="meanwhile")


def _read(box: forms.BoundField) -> str:
    """The value of a box as a person reads it: a choice by its words, a tick as yes or no."""
    value = box.value()
    if isinstance(box.field, forms.BooleanField):
        return "yes" if box.field.to_python(value) else "no"
    if isinstance(box.field, forms.ModelChoiceField):
        chosen = box.field.queryset.filter(pk=value).first() if value else None
        return str(chosen) if chosen else ""
    if isinstance(box.field, forms.ChoiceField):
        return dict(box.field.choices).get(value, str(value or ""))
    return "" if value is None else " ".join(str(value).split())
