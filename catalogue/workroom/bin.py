"""What the bin of a workroom holds, row by row: whose it is, and what is left without some of it."""

from collections.abc import Iterator, Set
from typing import Any

from django.apps import apps
from django.contrib.contenttypes.fields import GenericForeignKey
from django.core import serializers
from django.db.models import CASCADE, ForeignKey, Model

from catalogue.workroom.models import Deleted, Workroom
from catalogue.workroom.persons import OF_PERSON, RowKey, row_key


def rows_in(deleted: Deleted) -> list[Model]:
    """The rows of what was deleted, in order; of models that are no more there are none."""
    rows = serializers.deserialize("python", deleted.rows, ignorenonexistent=True)
    return [one.object for one in rows]


def is_tag(row: Model) -> bool:
    return getattr(row, "comes_back_by_name", False)


def main_row(deleted: Deleted) -> Model:
    """The row that was deleted, with which all others went."""
    return next(row for row in rows_in(deleted) if not is_tag(row))


def pointers_of(row: Model) -> list[ForeignKey]:
    """Fields that hold the number of another row."""
    return [field for field in row._meta.concrete_fields if field.is_relation and getattr(row, field.attname)]


def left_without(deleted: Deleted, gone: Set[RowKey]) -> list[dict[str, Any]]:
    """Its rows without those that are `gone`, and pointing to none; none where the main row is gone."""
    if row_key(main_row(deleted)) in gone:
        return []
    return [_loosened(one, gone) for one in deleted.rows if (one["model"], one["pk"]) not in gone]


def _loosened(said: dict[str, Any], gone: Set[RowKey]) -> dict[str, Any]:
    fields = {
        field.name: None
        for field in apps.get_model(said["model"])._meta.concrete_fields
        if field.is_relation
        and (field.related_model._meta.label_lower, said["fields"].get(field.name)) in gone
    }
    return said | {"fields": said["fields"] | fields}


class Bin:
    def __init__(self, workroom: Workroom) -> None:
        self.all = list(Deleted.objects.of_workroom(workroom))
        self.rows = {row_key(row): row for deleted in self.all for row in rows_in(deleted)}

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
            gone |= {key for key, row in self.rows.items() if gone.intersection(_stands_on(row))}
        return gone & self.rows.keys()


def _stands_on(row: Model) -> Iterator[RowKey]:
    for field in pointers_of(row):
        if field.remote_field.on_delete is CASCADE:
            yield field.related_model._meta.label_lower, getattr(row, field.attname)
    for field in row._meta.private_fields:
        if isinstance(field, GenericForeignKey):
            pointed = field.get_content_type(id=getattr(row, f"{field.ct_field}_id"))
            yield f"{pointed.app_label}.{pointed.model}", getattr(row, field.fk_field)
