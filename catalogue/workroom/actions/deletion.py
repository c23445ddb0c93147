"""Rows are deleted for a while, and can be brought back.

What is deleted is kept for thirty days as Django's serializer writes rows. It comes back under the keys it
had, which a database never gives twice: whatever pointed to it and stayed, as a garment of an outfit that
drew on it, points to it again. A wearer who is erased is not kept.
"""

import json
from collections.abc import Iterable, Set
from datetime import datetime
from typing import Any

from django.apps import apps
from django.core import serializers
from django.core.serializers.json import DjangoJSONEncoder
from django.db import IntegrityError, connection, models, transaction
from django.utils import timezone

from catalogue.workroom.bin import (
    Bin,
    RowKey,
    going_with,
    grounds_of,
    is_tag,
    kind_of,
    left_without,
    pointers_of,
    row_key,
    rows_in,
)
from catalogue.workroom.files import files_stay, forget
from catalogue.workroom.index.filing import file_references, file_sources, references_of, sources_among
from catalogue.workroom.models import DeletedRow, User, WithFiles, Workroom, WorkroomModel
from catalogue.workroom.work.engine import ask
from catalogue.workroom.work.models import WorkedModel

TAKEN = "What was made meanwhile has its place: delete that first, then bring this back."


class CannotComeBack(Exception):
    """`sentence` says what is missing, and what to do."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


class _ToTheMicrosecond(DjangoJSONEncoder):
    """Django writes thousandths of a second; rows stand in their order by finer parts of it."""

    def default(self, value: Any) -> Any:
        return value.isoformat() if isinstance(value, datetime) else super().default(value)


@transaction.atomic
def delete_for_a_while(*, row: WorkroomModel, by: User) -> DeletedRow:
    """Delete the row with all that goes with it, and keep what is needed to bring it back.

    Raises ProtectedError where something keeps it from being deleted.
    """
    workroom, garments, moved = row.its_workroom(), references_of([row]), kind_of(row).moved
    going = going_with(row)
    rows = [one for one in going.rows if not getattr(one, "is_derived", False)]
    deleted = DeletedRow.objects.create(
        workroom=workroom,
        what=row._meta.verbose_name,
        name=str(row)[:300],
        by=str(by),
        rows=json.loads(serializers.serialize("json", [*_tags_of(rows), *rows], cls=_ToTheMicrosecond)),
        loosened=going.loosened,
    )
    with files_stay():
        for name, staying in kind_of(row).lets_go(row).items():
            staying.update(**{name: None})
        for one in going.starts[::-1]:
            one.delete()
    moved(row)
    file_references(garments)
    return deleted


@transaction.atomic
def bring_back(*, deleted: DeletedRow) -> models.Model:
    """Write the rows again, and return the one that was deleted. Raises CannotComeBack.

    A part whose own ground is gone meanwhile, as a citation of a source deleted since, stays away: for good,
    or in the bin as long as its ground lies there too.
    """
    rows = rows_in(deleted)
    tags = {tag.pk: _tag_here(tag) for tag in rows if is_tag(tag)}
    rows = [row for row in rows if not is_tag(row)]
    for row in rows:
        if hasattr(row, "tag_id"):
            row.tag_id = tags[row.tag_id]
    main, emptied = rows[0], []
    kept = _with_ground(rows, emptied)
    if main not in kept:
        raise CannotComeBack(_what_is_missing(deleted, main))
    try:
        with transaction.atomic():
            for row in kept:
                models.Model.save_base(row, raw=True)
    except IntegrityError:
        raise CannotComeBack(TAKEN) from None
    missed = [one for one in deleted.loosened if not _point_again(*one)]
    for row in kept:
        if isinstance(row, WorkedModel) and row.work is None:
            # It went before there was a row of its work to go and come back with it.
            ask(row, at=timezone.now())
    _keep_waiting(deleted, [row for row in rows if row not in kept])
    _leave_word(deleted.workroom, emptied=emptied, missed=missed)
    kind_of(main).moved(main)
    file_references(references_of(kept))
    file_sources(sources_among(kept))
    return main


@transaction.atomic
def sweep(*, at: datetime) -> int:
    """Delete for good what was kept for thirty days. Returns how many there were.

    Several may sweep at once, as a server that starts and its host's daily task: each row is locked by one of
    them, and passed over by the others.
    """
    can_skip = connection.features.has_select_for_update_skip_locked
    past = list(DeletedRow.objects.past_keeping(at).select_for_update(skip_locked=can_skip))
    for old in past:
        forget_deleted(deleted=old)
    return len(past)


@transaction.atomic
def forget_deleted(*, deleted: DeletedRow) -> None:
    """Delete for good, with the files of photographs and scans."""
    _forget_files_of(rows_in(deleted))
    deleted.delete()


@transaction.atomic
def take_out(*, deleted: DeletedRow, gone: Set[RowKey]) -> None:
    """Delete for good those of its rows that are among `gone`; without its main row nothing of it is left."""
    left = left_without(deleted, gone)
    if left == deleted.rows:
        return
    if not left:
        forget_deleted(deleted=deleted)
        return
    _forget_files_of(row for row in rows_in(deleted) if row_key(row) in gone)
    deleted.rows = left
    deleted.loosened = [one for one in deleted.loosened if not gone.intersection(_both_ends(*one))]
    deleted.save()


def _forget_files_of(rows: Iterable[models.Model]) -> None:
    for row in rows:
        if isinstance(row, WithFiles):
            forget(row.files())


def _both_ends(label: str, pk: Any, name: str, value: Any) -> set[RowKey]:
    """The row that pointed to one that went, and that one."""
    pointed = apps.get_model(label)._meta.get_field(name).related_model
    return {(label.casefold(), pk), (pointed._meta.label_lower, value)}


def _what_is_missing(deleted: DeletedRow, row: models.Model) -> str:
    """Why the row cannot stand here, and what to do."""
    ground = {*grounds_of(row)}
    others = DeletedRow.objects.of_workroom(deleted.workroom).exclude(pk=deleted.pk)
    holding = next((one for one in others if ground & {row_key(held) for held in rows_in(one)}), None)
    if holding is None:
        return "What it belonged to is gone for good, so it cannot come back."
    return f"It belonged to “{holding}”, which is deleted as well: bring that back first."


def _point_again(label: str, pk: Any, name: str, value: Any) -> bool:
    """Have a row that stayed point to what is back; whether it is here, and points to nothing else."""
    rows = apps.get_model(label)._base_manager.filter(pk=pk, **{f"{name}__isnull": True})
    return bool(rows.update(**{name: value}))


def _leave_word(workroom: Workroom, *, emptied: list[list[Any]], missed: list[list[Any]]) -> None:
    """Tell what is still in the bin who pointed to it when they came back, and what of it is back itself."""
    others = Bin(workroom) if emptied or missed else None
    for label, pk, name, value in emptied:
        pointed = apps.get_model(label)._meta.get_field(name).related_model._meta.label_lower
        if others and (other := others.holding.get((pointed, value))):
            other.loosened.append([label, pk, name, value])
            other.save()
    for label, pk, name, value in missed:
        if others and (other := others.holding.get((label.casefold(), pk))):
            said = next(one for one in other.rows if (one["model"], one["pk"]) == (label.casefold(), pk))
            said["fields"][apps.get_model(label)._meta.get_field(name).name] = value
            other.save()


def _keep_waiting(deleted: DeletedRow, away: list[models.Model]) -> None:
    """Keep in the bin what stays away and may still come; the rest of what was deleted is no more there."""
    held = {*Bin(deleted.workroom, without=deleted).rows} if away else set()
    waiting: set[RowKey] = set()
    while more := {row_key(row) for row in away if (held | waiting).intersection(grounds_of(row))} - waiting:
        waiting |= more
    _forget_files_of(row for row in away if row_key(row) not in waiting)
    if not waiting:
        deleted.delete()
        return
    deleted.rows = [one for one in deleted.rows if (one["model"], one["pk"]) in waiting]
    deleted.name, deleted.loosened = f"{deleted.name[:280]}: the rest", []
    deleted.save()


def _with_ground(rows: list[models.Model], emptied: list[list[Any]]) -> list[models.Model]:
    """The rows whose pointers lead somewhere; an optional one that does not is left empty, and noted."""
    while True:
        coming = {(type(row), row.pk) for row in rows}
        kept = [
            row
            for row in rows
            if all(_leads_somewhere(row, field, coming, emptied) for field in pointers_of(row))
        ]
        if len(kept) == len(rows):
            return kept
        rows = kept


def _leads_somewhere(
    row: models.Model, field: models.ForeignKey, coming: set[tuple[type, Any]], emptied: list[list[Any]]
) -> bool:
    model, pk = field.related_model, getattr(row, field.attname)
    if (model, pk) in coming or model._base_manager.filter(pk=pk).exists():
        return True
    if field.null:
        emptied.append([row._meta.label, row.pk, field.attname, pk])
        setattr(row, field.attname, None)
    return field.null


def _tags_of(rows: list[models.Model]) -> list[models.Model]:
    """The tags that were joined to what goes: one that nothing bears any more may be forgotten meanwhile."""
    bearing = [row for row in rows if hasattr(row, "tag_id")]
    if not bearing:
        return []
    tags = bearing[0]._meta.get_field("tag").related_model.objects
    return list(tags.filter(pk__in=[row.tag_id for row in bearing]))


def _tag_here(tag: models.Model) -> int:
    named = {"workroom_id": tag.workroom_id, "name": tag.name}
    return (type(tag).objects.filter(**named).first() or type(tag).objects.create(**named)).pk
