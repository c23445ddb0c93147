"""What the bin of a workroom holds, row by row: whose it is, and what is left without some of it."""

from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from django.apps import apps
from django.contrib.contenttypes.fields import GenericForeignKey
from django.core import serializers
from django.db import DEFAULT_DB_ALIAS
from django.db.models import CASCADE, ForeignKey, Model, QuerySet
from django.db.models.deletion import Collector

from catalogue.workroom.kinds import KINDS, Kind
from catalogue.workroom.models import DeletedRow, Workroom
from catalogue.workroom.persons import OF_PERSON

# A row wherever it is held: its model, as Django writes it, and its number.
RowKey = tuple[str, Any]


def row_key(row: Model) -> RowKey:
    return row._meta.label_lower, row.pk


def rows_in(deleted: DeletedRow) -> list[Model]:
    """The rows of what was deleted, in order; of models that are no more there are none."""
    rows = serializers.deserialize("python", deleted.rows, ignorenonexistent=True)
    return [one.object for one in rows]


def is_tag(row: Model) -> bool:
    return getattr(row, "comes_back_by_name", False)


def main_row(deleted: DeletedRow) -> Model:
    """The row that was deleted, with which all others went."""
    return next(row for row in rows_in(deleted) if not is_tag(row))


def pointers_of(row: Model) -> list[ForeignKey]:
    """Fields that hold the number of another row."""
    return [field for field in row._meta.concrete_fields if field.is_relation and getattr(row, field.attname)]


def grounds_of(row: Model) -> Iterator[RowKey]:
    """The rows without which this one cannot stand."""
    for field in pointers_of(row):
        if not field.null or field.remote_field.on_delete is CASCADE:
            yield field.related_model._meta.label_lower, getattr(row, field.attname)
    for field in row._meta.private_fields:
        if isinstance(field, GenericForeignKey):
            pointed = field.get_content_type(id=getattr(row, f"{field.ct_field}_id"))
            yield f"{pointed.app_label}.{pointed.model}", getattr(row, field.fk_field)


def left_without(deleted: DeletedRow, gone: Set[RowKey]) -> list[dict[str, Any]]:
    """Its rows without those that are `gone`, and pointing to none; none where the main row is gone."""
    if row_key(main_row(deleted)) in gone:
        return []
    held = {row_key(row) for row in rows_in(deleted)} - gone
    return [_loosened(one, gone) for one in deleted.rows if (one["model"], one["pk"]) in held]


def _loosened(said: dict[str, Any], gone: Set[RowKey]) -> dict[str, Any]:
    fields = {
        field.name: None
        for field in apps.get_model(said["model"])._meta.concrete_fields
        if field.is_relation
        and (field.related_model._meta.label_lower, said["fields"].get(field.name)) in gone
    }
    return said | {"fields": said["fields"] | fields}


def rows_going_with(rows: Iterable[Model]) -> list[Model]:
    """These rows, of any models, and all that a database deletes with them."""
    return _rows_in(_collected(rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class Going:
    """What is deleted with a row. `starts`: the row itself, and what is to be deleted with it by hand.

    `rows`: all that goes, the row first. `loosened`: each pointer of what stays, as it is before: model,
    number, column and the number that it holds.
    """

    starts: list[Model]
    rows: list[Model]
    loosened: list[list[Any]]


def going_with(row: Model) -> Going:
    """All that goes with a row. Raises ProtectedError where something keeps it from being deleted."""
    starts, let_go = [row, *_traced_on(row)], kind_of(row).lets_go(row)
    collector = _collected(starts)
    stay = {row_key(one) for rows in let_go.values() for one in rows_going_with(rows)}
    going = {row_key(one): one for one in _rows_in(collector) if row_key(one) not in stay}
    pointing = [
        (one, field.attname)
        for (field, _), of_field in collector.field_updates.items()
        for some in of_field
        for one in (some if isinstance(some, QuerySet) else [some])
    ]
    pointing += [(one, one._meta.get_field(name).attname) for name, rows in let_go.items() for one in rows]
    return Going(
        starts=starts,
        rows=sorted(going.values(), key=lambda one: one != row),
        loosened=[
            [one._meta.label, one.pk, name, getattr(one, name)]
            for one, name in pointing
            if row_key(one) not in going
        ],
    )


def _traced_on(row: Model) -> list[Model]:
    """What means nothing without the pixels of this row, though no database would delete it with them."""
    kind = kind_of(row)
    traced = [one for one in KINDS.values() if one.pixels_of is kind.model]
    return [
        one
        for part in traced
        for one in part.model._default_manager.filter(
            **{part.way_to(kind.wholes[0]): getattr(row, kind.part_of)}
        )
    ]


def _collected(rows: Iterable[Model]) -> Collector:
    collector = Collector(using=DEFAULT_DB_ALIAS)
    for _, of_model in groupby(rows, key=type):
        collector.collect(list(of_model))
    return collector


def _rows_in(collector: Collector) -> list[Model]:
    rows = [one for of_model in collector.data.values() for one in of_model]
    return [*rows, *(one for quick in collector.fast_deletes for one in quick)]


def kind_of(row: Model) -> Kind:
    return KINDS.get(type(row)) or Kind(model=type(row))


class Bin:
    def __init__(self, workroom: Workroom, *, without: DeletedRow | None = None) -> None:
        self.all = [one for one in DeletedRow.objects.of_workroom(workroom) if one != without]
        held = [(deleted, row) for deleted in self.all for row in rows_in(deleted)]
        self.rows = {row_key(row): row for _, row in held}
        self.holding = {row_key(row): deleted for deleted, row in held}

    def whose(self, person: Model) -> Iterator[Model]:
        """The rows that are the person's by themselves."""
        for row in self.rows.values():
            of_person = OF_PERSON.get(type(row))
            if of_person and of_person.is_whose(row, person, at=self.at):
                yield row

    def at(self, row: Model, way: str) -> Any:
        """The number at the end of a way up from a row, over what the bin holds and what stands here."""
        name, _, rest = way.partition("__")
        field = row._meta.pk if name == "pk" else row._meta.get_field(name)
        number = getattr(row, field.attname)
        if number is None or not rest:
            return number
        above = self.rows.get((field.related_model._meta.label_lower, number))
        above = above or field.related_model._base_manager.filter(pk=number).first()
        return self.at(above, rest) if above else None

    def falling_with(self, gone: Set[RowKey]) -> set[RowKey]:
        """All rows of the bin that go when these do: those among them, and what cannot stand without."""
        gone, before = {*gone}, 0
        while len(gone) > before:
            before = len(gone)
            gone |= {key for key, row in self.rows.items() if gone.intersection(grounds_of(row))}
        return gone & self.rows.keys()
