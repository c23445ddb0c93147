"""The boxes of a sum as it is declared, and its values out of what was typed in them."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import parse_length
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet, field_of

_IN_ROW = re.compile(r"\[(\d+)\](?:\.(\w+))?")


class SumSheet(WorkSheet):
    def add_rows(self) -> None:
        alone = [one for one in self.asked.inputs if isinstance(one, ask.Input)]
        # What a group needs it may be left out without.
        grouped = [replace(one, is_needed=False) for group in self._groups() for one in group.inputs]
        self.alone = [*alone, *grouped]
        for one in self.alone:
            field = self.fields[_box(one)] = field_of(one, self.reader.system)
            field.help_text = ask.from_garment(one.hint, self.known)
            if isinstance(field, LengthFormField):
                field.widget.attrs["placeholder"] = self.reader.system
        self.first_rows = {rows.name: rows.first(self.known) for rows in self._lists()}
        for rows in self._lists():
            for row, at in enumerate(self._counted(rows), start=1):
                for one in _boxed(rows):
                    self.add_box(_box(one, at), replace(one, label=one.label.format(at=at, row=row)))

    def _groups(self) -> list[ask.Group]:
        return [one for one in self.asked.inputs if isinstance(one, ask.Group)]

    def _lists(self) -> list[ask.InputRows]:
        return [one for one in self.asked.inputs if isinstance(one, ask.InputRows)]

    def _counted(self, rows: ask.InputRows) -> range:
        return range(rows.counts_from, rows.counts_from + len(self.first_rows[rows.name]) + rows.blank)

    def fill(self) -> dict[str, Any]:
        together = self.asked.first(self.known)
        filled = {
            _box(one): together.get(one.name, ask.from_garment(one.first, self.known)) for one in self.alone
        }
        for rows in self._lists():
            for at, first in zip(self._counted(rows), self.first_rows[rows.name], strict=False):
                filled |= {_box(one, at): first.get(one.name) for one in _boxed(rows)}
        return filled

    def tables(self) -> Sequence[BoxTable]:
        return [
            BoxTable(
                caption=rows.caption,
                heads=rows.heads,
                says=rows.says,
                rows=[
                    BoxRow(
                        label=rows.labels[row - 1] if rows.labels else str(row),
                        boxes=[self[_box(one, at)] for one in _boxed(rows)],
                    )
                    for row, at in enumerate(self._counted(rows), start=1)
                ],
            )
            for rows in self._lists()
        ]

    def reckon(self) -> SheetAnswer:
        values = {ask.value_name(one): self._value(one) for one in self.asked.inputs}
        return self.asked.worked(self.asked.reckon(**values), values)

    def _value(self, one: ask.Input | ask.Group | ask.InputRows, at: int | None = None) -> Any:
        """As declared; None where nothing was typed and there is no default."""
        match one:
            case ask.InputRows():
                return [self._row(one, at) for at in self._typed_rows(one)]
            case ask.Group():
                return self._group(one)
        typed = self.cleaned_data.get(_box(one, at))
        match one:
            case ask.YesNo():
                return bool(typed)
            case ask.Percent():
                return (typed or 0) / 100
            case ask.Choice():
                return one.words(typed)
            case ask.Text():
                return typed or one.default.format(at=at)
            case ask.Length():
                default_mm = float(parse_length(one.default)) if one.default else None
                return default_mm if typed is None else typed.mm
        if typed in (None, ""):
            return one.default
        return typed if isinstance(one, ask.Whole) else float(typed)

    def _group(self, group: ask.Group) -> dict[str, Any] | None:
        given = [self.cleaned_data.get(_box(one)) is not None for one in group.needed]
        if group.needed and not any(given):
            return None
        for one, is_given in zip(group.needed, given, strict=True):
            if not is_given:
                raise Faults([Fault(f"{group.name}.{one.name}", group.says)])
        return {ask.value_name(one): self._value(one) for one in group.inputs}

    def _typed_rows(self, rows: ask.InputRows) -> list[int]:
        """The rows of the page that are asked for, by their numbers there."""
        mark = next(one for one in rows.columns if one.name == rows.marked_by)
        return [at for at in self._counted(rows) if self.cleaned_data.get(_box(mark, at)) not in (None, "")]

    def _row(self, rows: ask.InputRows, at: int) -> dict[str, Any]:
        typed = {ask.value_name(one): self._value(one, at) for one in _boxed(rows)}
        return typed | {name: values[at - rows.counts_from] for name, values in rows.fixed.items()}

    def box_of(self, where: str) -> str | None:
        """A place in a file is a box here: `strips.join`, `shares[1]`, `channels`."""
        where = self.asked.told_at.get(where, where)
        for rows in self._lists():
            in_row = where.removeprefix(rows.name) if where.startswith(rows.name) else ""
            if place := _IN_ROW.fullmatch("[0]" if where == rows.name else in_row):
                typed, row = self._typed_rows(rows), int(place[1])
                at = typed[row] if row < len(typed) else rows.counts_from
                column = place[2] or rows.told_at or rows.marked_by
                return next(_box(one, at) for one in rows.columns if one.name == column)
        for group in self._groups():
            for one in group.inputs:
                if where == f"{group.name}.{one.name}":
                    return _box(one)
        named = (one for one in self.asked.inputs if isinstance(one, ask.Input))
        return next((_box(one) for one in named if one.name == where.rpartition(".")[2]), None)


def _box(one: ask.Input, at: int | None = None) -> str:
    return (one.box or one.name) if at is None else f"{one.box or one.name} {at}"


def _boxed(rows: ask.InputRows) -> list[ask.Input]:
    return [one for one in rows.columns if one.name not in rows.fixed]
