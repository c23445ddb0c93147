"""Deleting for a while: what goes with a row is kept as it was for thirty days, and can come back.

The rows come back under the keys they had, which a database never gives twice: whatever pointed to them and
stayed, as a garment of an outfit that drew on them, points to them again.
"""

import json
import shutil
from datetime import datetime
from functools import partial
from typing import Any

from django.apps import apps
from django.core import serializers
from django.db import models, transaction
from django.db.models.deletion import Collector

from catalogue.actions.index import file_references, file_sources
from catalogue.actions.photos import forget_files
from catalogue.models import Deleted, Photo, PlateScan, ReferenceGarment, Source, Tag, User, WorkroomModel

Rows = list[dict[str, Any]]


class CannotComeBack(Exception):
    """`sentence` says what is missing, and what to do."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


@transaction.atomic
def delete_for_a_while(*, row: WorkroomModel, by: User, at: datetime) -> Deleted:
    """Delete the row with all that goes with it, and keep what is needed to bring it back.

    Raises ProtectedError where something keeps it from being deleted.
    """
    for old in Deleted.objects.past_keeping(at):
        forget_deleted(deleted=old)
    workroom, garments = row.its_workroom(), _garments_of([row])
    rows, loosened = _what_goes(row)
    deleted = Deleted.objects.create(
        workroom=workroom,
        what=row._meta.verbose_name,
        name=str(row)[:300],
        by=str(by),
        rows=json.loads(serializers.serialize("json", [*_tags_of(rows), *rows])),
        loosened=loosened,
    )
    row.delete()
    file_references(ReferenceGarment.objects.filter(pk__in=garments).values_list("pk", flat=True))
    return deleted


@transaction.atomic
def bring_back(*, deleted: Deleted) -> models.Model:
    """Write the rows again, and return the one that was deleted. Raises CannotComeBack.

    A part whose own ground is gone meanwhile, as a citation of a source deleted since, stays away.
    """
    rows = [one.object for one in serializers.deserialize("python", deleted.rows, ignorenonexistent=True)]
    tags = {tag.pk: _tag_here(tag) for tag in rows if isinstance(tag, Tag)}
    rows = [row for row in rows if not isinstance(row, Tag)]
    for row in rows:
        if hasattr(row, "tag_id"):
            row.tag_id = tags[row.tag_id]
    main, kept = rows[0], _with_ground(rows)
    if main not in kept:
        raise CannotComeBack("What it belonged to is deleted as well: bring that back first.")
    for row in kept:
        models.Model.save_base(row, raw=True)
    for label, pk, name, value in deleted.loosened:
        apps.get_model(label)._base_manager.filter(pk=pk, **{f"{name}__isnull": True}).update(**{name: value})
    deleted.delete()
    file_references(_garments_of(kept))
    file_sources(row.pk for row in kept if isinstance(row, Source))
    return main


@transaction.atomic
def forget_deleted(*, deleted: Deleted) -> None:
    """Delete for good, with the files of photographs and scans."""
    gone = [one.object for one in serializers.deserialize("python", deleted.rows, ignorenonexistent=True)]
    forget_files([row.stem for row in gone if isinstance(row, Photo)])
    for scan in (row for row in gone if isinstance(row, PlateScan)):
        transaction.on_commit(partial(shutil.rmtree, scan.folder, ignore_errors=True))
    deleted.delete()


def _what_goes(row: models.Model) -> tuple[list[models.Model], list[list[Any]]]:
    """Each row that goes, the one asked for first; and each pointer of what stays, as it is before."""
    collector = Collector(using=row._state.db, origin=row)
    collector.collect([row])
    rows = [one for of_model in collector.data.values() for one in of_model]
    rows += [one for quick in collector.fast_deletes for one in quick]
    rows = [one for one in rows if not getattr(one, "is_derived", False)]
    gone = {(type(one), one.pk) for one in rows}
    loosened = [
        [one._meta.label, one.pk, field.attname, getattr(one, field.attname)]
        for (field, _), of_field in collector.field_updates.items()
        for some in of_field
        for one in (some if isinstance(some, models.QuerySet) else [some])
        if (type(one), one.pk) not in gone
    ]
    return sorted(rows, key=lambda one: one != row), loosened


def _with_ground(rows: list[models.Model]) -> list[models.Model]:
    """The rows whose pointers lead somewhere; an optional one that does not is left empty."""
    while True:
        coming = {(type(row), row.pk) for row in rows}
        kept = [row for row in rows if all(_leads_somewhere(row, field, coming) for field in _pointers(row))]
        if len(kept) == len(rows):
            return kept
        rows = kept


def _pointers(row: models.Model) -> list[models.ForeignKey]:
    return [field for field in row._meta.concrete_fields if field.is_relation and getattr(row, field.attname)]


def _leads_somewhere(row: models.Model, field: models.ForeignKey, coming: set[tuple[type, Any]]) -> bool:
    model, pk = field.related_model, getattr(row, field.attname)
    if (model, pk) in coming or model._base_manager.filter(pk=pk).exists():
        return True
    if field.null:
        setattr(row, field.attname, None)
    return field.null


def _tags_of(rows: list[models.Model]) -> list[Tag]:
    """The tags that were joined to what goes: one that nothing bears any more may be forgotten meanwhile."""
    return list(Tag.objects.filter(pk__in=[row.tag_id for row in rows if hasattr(row, "tag_id")]))


def _tag_here(tag: Tag) -> int:
    found = Tag.objects.filter(workroom=tag.workroom_id, name=tag.name).first()
    if found is None:
        found = Tag.objects.create(workroom_id=tag.workroom_id, name=tag.name)
    return found.pk


def _garments_of(rows: list[models.Model]) -> set[int]:
    """The reference garments that the rows are, or are parts of: their index cards are drawn from them."""
    found: set[int] = set()
    for row in rows:
        way = getattr(row, "workroom_path", "").split("__")
        while row is not None and not isinstance(row, ReferenceGarment) and way:
            row = getattr(row, way.pop(0), None)
        if isinstance(row, ReferenceGarment):
            found.add(row.pk)
    return found
