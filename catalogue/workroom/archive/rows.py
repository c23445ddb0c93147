"""Rows written from what an archive says of them: by the table of kinds, whatever they are.

Parts that have a key and are here, but are not said, stay. Parts without a key have nothing to be known by
and are written anew, but for those of which there is one at most.
"""

import re
from collections import Counter
from collections.abc import Callable
from copy import copy
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from types import TracebackType
from typing import IO, Any, Self
from zoneinfo import ZoneInfo

from django.db.models import Model, QuerySet

from catalogue.lengths.calculation.errors import Fault
from catalogue.workroom.archive.packing import named_by_content
from catalogue.workroom.files import forget, remove
from catalogue.workroom.kinds import KINDS, Kind
from catalogue.workroom.models import Workroom
from catalogue.workroom.reader.columns import columns_of
from catalogue.workroom.reader.faulty_value import FaultyValue

Said = dict[str, Any]
DAY = re.compile(r"\d{4}-\d\d-\d\d")
Models = frozenset[type[Model]]


@dataclass(slots=True, kw_only=True)
class Files:
    """Used as a context: what was stored inside stays only if nothing was raised.

    `opened` gives a file of the archive by its name there; `kept` counts what was, or would be, stored.
    """

    opened: Callable[[str], IO[bytes]]
    only_try: bool
    kept: Counter[str] = field(default_factory=Counter)
    faults: list[Fault] = field(default_factory=list)
    rows: list[Any] = field(default_factory=list)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, raised: BaseException | None, trace: TracebackType | None
    ) -> None:
        if raised is not None or self.only_try:
            for row in self.rows:
                for name in row.files():
                    remove(name)

    def keep(self, kind: Kind, row: Any, name: str, place: str) -> None:
        """Store the file for the row; a fault of it is noted with the place of its row."""
        self.kept[kind.files.strip("/")] += 1
        with self.opened(name) as opened:
            try:
                kind.keep(row, opened)
            except FaultyValue as refused:
                self.faults.append(Fault(f"{place}, {name}", refused.sentence))
            finally:
                self.rows.append(copy(row))


@dataclass(slots=True, kw_only=True)
class Rows:
    """What an archive says, written into a workroom. `place`: of the row that is being written."""

    workroom: Workroom
    files: Files
    place: str = ""
    # By so much every day and moment is moved.
    later: timedelta = timedelta()
    # Numbers of rows by the keys that the archive knows them by; of each kind when it is first asked for.
    known: dict[Kind, dict[str, int]] = field(default_factory=dict)
    people: dict[str, int] = field(default_factory=dict)
    loose: list[tuple[Kind, int, str, Any]] = field(default_factory=list)

    def __post_init__(self) -> None:
        members = self.workroom.members.select_related("user").order_by("-pk")
        self.people = {str(member.user): member.user_id for member in members}

    def write(
        self, kind: Kind, said: Said, *, row: Any = None, within: Any = None, without: Models = frozenset()
    ) -> Any:
        """Make the row, new or here already, as said, with all its parts."""
        is_new = row is None
        row = row or kind.model(**({kind.part_of: within} if within else self._of_workroom(kind)))
        columns = self._columns(kind, said)
        differs = is_new or any(getattr(row, name) != value for name, value in columns.items())
        for name, value in columns.items():
            setattr(row, name, value)
        if kind.files and (is_new or named_by_content(row) != said["file"]):
            differs = True
            if not is_new:
                kind.replaced(row)
                forget(row.files())
            self.files.keep(kind, row, said["file"], self.place)
        if differs:
            row.save()
            kind.written(row)
        if kind.has_key:
            self.numbers(kind)[said["key"]] = row.pk
        for name, model in kind.named.items():
            getattr(row, name).set(self._named(model, said[name]))
        self.loose += [(kind, row.pk, name, said[name]) for name in kind.loose if said[name] or not is_new]
        for name, part in kind.only.items():
            if said[name] is None:
                without |= {one.model for one in KINDS.values() if one.pixels_of is part.model}
        self._write_parts(kind, row, said, is_new=is_new, without=without)
        return row

    def _write_parts(self, kind: Kind, row: Any, said: Said, *, is_new: bool, without: Models) -> None:
        for name, part in kind.only.items():
            if said[name] is not None and part.model not in without:
                here = None if is_new else getattr(row, name, None)
                self.write(part, said[name], row=here, within=row, without=without)
        for name, part in kind.parts.items():
            if part.model in without or (part.stays_unsaid and not said[name]):
                continue
            held = getattr(row, name)
            if not part.has_key:
                self._replace(part, held, said[name], within=row, is_new=is_new)
                continue
            here = {} if is_new else {str(one.key): one for one in held.all()}
            for one in said[name]:
                known = here.get(one["key"]) or (here and self.alike(part, one, held.all()))
                self.write(part, one, row=known or None, within=row, without=without)

    def alike(self, kind: Kind, said: Said, rows: QuerySet) -> Any:
        """Which of these rows says the same under another key, if any."""
        return rows.filter(kind.alike(self._columns(kind, said))).first() if kind.alike else None

    def _replace(self, kind: Kind, held: Any, said: list[Said], *, within: Any, is_new: bool) -> None:
        if not is_new:
            held.all().delete()
        rows = [kind.model(**{kind.part_of: within}, **self._columns(kind, one)) for one in said]
        kind.model._default_manager.bulk_create(rows)

    def _columns(self, kind: Kind, said: Said) -> Said:
        columns = columns_of(kind, said)
        if self.later:
            zone = ZoneInfo(self.workroom.time_zone)
            columns |= {name: moved(columns[name], self.later, zone) for name in kind.moving()}
        for name, target in kind.points_to.items():
            columns[f"{name}_id"] = self.numbers(target).get(said[name])
        # Who is no member here is nobody: an archive brings no people.
        return columns | {f"{name}_id": self.people.get(said[name]) for name in kind.people if name in said}

    def numbers(self, kind: Kind) -> dict[str, int]:
        """The numbers of the rows of one kind, by their keys."""
        if kind not in self.known:
            rows = kind.model._default_manager.of_workroom(self.workroom)
            self.known[kind] = {str(key): pk for key, pk in rows.values_list("key", "pk")}
        return self.known[kind]

    def point_back(self) -> None:
        """Set what points to rows that may have come later. Called at the end."""
        for kind, pk, name, said in self.loose:
            numbers = self.numbers(kind.loose[name])
            if kind.model._meta.get_field(name).many_to_many:
                getattr(kind.model(pk=pk), name).set([numbers[key] for key in said if key in numbers])
            else:
                kind.model._base_manager.filter(pk=pk).update(**{name: numbers.get(said)})

    def _of_workroom(self, kind: Kind) -> dict[str, Workroom]:
        return {"workroom": self.workroom} if kind.model.workroom_path == "workroom" else {}

    def _named(self, model: type[Model], names: list[str]) -> list[Model]:
        rows = model._default_manager.of_workroom(self.workroom)
        here = {one.name.casefold(): one for one in rows} if names else {}
        return [
            here.get(name.casefold()) or model._default_manager.create(workroom=self.workroom, name=name)
            for name in names
        ]


def moved(value: Any, later: timedelta, zone: ZoneInfo) -> Any:
    """A day so much later, a moment at the same time of its day; in JSON each day that is written as such."""
    if isinstance(value, datetime):
        return value.astimezone(zone) + later
    if isinstance(value, date):
        return value + later
    if isinstance(value, dict):
        return {name: moved(one, later, zone) for name, one in value.items()}
    if isinstance(value, list):
        return [moved(one, later, zone) for one in value]
    if isinstance(value, str) and DAY.fullmatch(value):
        return (date.fromisoformat(value) + later).isoformat()
    return value
