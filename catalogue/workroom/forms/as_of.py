"""Two people at one record: the second to save sees both versions, and nothing that was typed is lost.

A form of a row carries when that row was last changed, and a stamp of each box as it was read. To save is to
claim the row in one statement: whoever comes second finds another time there. A box is theirs where they
changed it, and is shown beside what the row holds now; one they did not touch takes the row's new value.
"""

import hashlib
import re
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Self
from zlib import crc32

from django import forms
from django.http import QueryDict
from django.utils import timezone

from catalogue.workroom.models import KeyedModel, User, acting

MEANWHILE = (
    "This was changed on another screen while you typed. Yours is still in the boxes, not kept yet: compare, "
    "then save what is right."
)

# What a form is given for one answer only, or as a suggestion for what is empty; the rest its class asks for.
OF_ONE_REQUEST = {"data", "files", "instance", "initial"}


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferingBox:
    """A box whose value as it is now is not what was sent; both as a person reads them."""

    label: str
    now: str
    typed: str
    is_yours: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherChange:
    """What somebody else changed: the boxes that differ now, when, and by whom where that is known."""

    boxes: tuple[DifferingBox, ...]
    at: datetime
    by: User | None = None

    @property
    def yours(self) -> tuple[DifferingBox, ...]:
        return tuple(box for box in self.boxes if box.is_yours)

    @property
    def theirs(self) -> tuple[DifferingBox, ...]:
        return tuple(box for box in self.boxes if not box.is_yours)


def stamps_of(form: forms.BaseForm) -> str:
    """Each box with a short sum of what stands in it: enough to tell later whether it was touched."""
    return " ".join(f"{name}={_stamp(form[name])}" for name in _compared(form))


def take_in(fresh: forms.BaseForm, typed: forms.BaseForm, stamps: str) -> tuple[DifferingBox, ...]:
    """Put the row's new values into the boxes of `typed` that nobody touched; return all that differ.

    Without stamps every box counts as touched.
    """
    read = dict(part.rpartition("=")[::2] for part in stamps.split())
    differing, data = [], typed.data.copy()
    for name in _compared(typed):
        box, new = typed[name], fresh[name]
        now, then = _read(new), _read(box)
        is_yours = read.get(name) != _stamp(box)
        if now != then:
            differing.append(
                DifferingBox(label=box.label, now=now or "empty", typed=then or "empty", is_yours=is_yours)
            )
        if not is_yours:
            _put(data, box.html_name, new)
    typed.data = data
    return tuple(differing)


def _compared(form: forms.BaseForm) -> list[str]:
    return [
        name for name, box in form.fields.items() if name != "as_of" and not isinstance(box, forms.FileField)
    ]


def _stamp(box: forms.BoundField) -> str:
    value = _sent(box)
    parts = sorted(value) if isinstance(value, list) else value.split()
    return f"{crc32(' '.join(parts).encode()):x}"


def _sent(box: forms.BoundField) -> str | list[str]:
    """What a browser sends of a box as it stands."""
    value = box.value()
    if isinstance(box.field, forms.BooleanField):
        return "on" if box.field.to_python(value) else ""
    shown = box.field.widget.format_value(value)
    if isinstance(shown, list | tuple) and isinstance(box.field.widget, forms.SelectMultiple):
        return [str(one) for one in shown]
    return str(shown[0] if isinstance(shown, list | tuple) and shown else shown or "")


def _put(data: QueryDict, name: str, box: forms.BoundField) -> None:
    value = _sent(box)
    if isinstance(value, list):
        data.setlist(name, value)
    elif value or not isinstance(box.field, forms.BooleanField):
        data[name] = value
    else:
        data.pop(name, None)


class AsOf:
    """Mixin of model forms, first in line. Without the hidden box, as for a new row, nothing is checked."""

    # None: nobody else changed the row meanwhile.
    meanwhile: OtherChange | None = None

    def __new__(cls, *args: Any, **kwargs: Any) -> Self:
        """Here all that the form is given passes by; its class keeps some of it before `__init__` below."""
        form = super().__new__(cls)
        form._asked_for = {name: given for name, given in kwargs.items() if name not in OF_ONE_REQUEST}
        # What the page suggests for an empty box is its reader's own, whether touched or not.
        form._has_suggestions = bool(kwargs.get("initial"))
        return form

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["as_of"] = forms.CharField(required=False, widget=forms.HiddenInput)
            self.initial["as_of"] = self._as_of

    def _as_of(self) -> str:
        plain = self if not self._has_suggestions else self._of(self.instance)
        return f"{self.instance.changed_at.isoformat()}|{stamps_of(plain)}"

    def _of(self, row: KeyedModel) -> Self:
        return type(self)(instance=row, **self._asked_for)

    def full_clean(self) -> None:
        super().full_clean()
        if self.is_bound and self.instance.pk and not self.errors:
            read_at, _, stamps = self.cleaned_data.pop("as_of", "").partition("|")
            if read_at and not self._claim(read_at):
                self._tell_both(stamps)

    def _claim(self, read_at: str) -> bool:
        """Mark the row as changed now, if nobody did since it was read."""
        try:
            as_of = datetime.fromisoformat(read_at)
        except ValueError:
            return False
        if timezone.is_naive(as_of):
            return False
        rows = type(self.instance)._base_manager.filter(pk=self.instance.pk, changed_at=as_of)
        return bool(rows.update(changed_at=timezone.now(), changed_by=acting()))

    def _tell_both(self, stamps: str) -> None:
        now = type(self.instance)._base_manager.filter(pk=self.instance.pk).first()
        if now is None:
            self.add_error(None, "This was deleted on another screen while you typed.")
            return
        fresh = self._of(now)
        self.meanwhile = OtherChange(boxes=take_in(fresh, self, stamps), at=now.changed_at, by=now.changed_by)
        # A second save writes what stands in the boxes, knowingly.
        self.data[self.add_prefix("as_of")] = fresh["as_of"].initial
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
