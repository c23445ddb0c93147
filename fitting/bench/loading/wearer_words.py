"""Every place in a workroom where makers wrote a person's name, so that nothing of them is left by chance."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.db import models

from catalogue.lengths.models import TypedText
from catalogue.workroom.bin import RowKey, left_without, row_key
from catalogue.workroom.models import DeletedRow, Workroom, WorkroomModel
from fitting.bench.loading.wearer_rows import Held
from fitting.dossier.models import Dossier
from fitting.outfits.calculation.discretion import (
    ERASED,
    Names,
    is_named,
    names_of,
    sentences_naming,
    without_names,
    without_sentences,
)
from fitting.wearers.models import Wearer

# What cannot be rewritten goes as a whole: what was deleted and could come back, and a printed page.
AS_A_WHOLE = (DeletedRow, Dossier)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedPlace:
    """One column of one row. `sentences` name the person; `blanked` is the column without them.

    `blanked` is None for what goes as a whole.
    """

    row: models.Model
    column: str
    sentences: tuple[str, ...]
    text: str
    blanked: Any

    @property
    def key(self) -> str:
        return f"{self.row._meta.model_name}-{self.row.pk}-{self.column}"

    @property
    def label(self) -> str:
        if isinstance(self.row, DeletedRow):
            return "Recently deleted"
        what = str(self.row._meta.verbose_name).capitalize()
        return f"{what}: {self.row._meta.get_field(self.column).verbose_name}"

    @property
    def address(self) -> str:
        find = getattr(self.row, "get_absolute_url", None)
        return find() if find else ""

    @property
    def can_be_rewritten(self) -> bool:
        return isinstance(self.blanked, str)

    def renamed(self, names: Sequence[str], name: str) -> str:
        return without_names(self.text, names_of(names, parts_as_written=True), instead=name)


def places_naming(
    workroom: Workroom, names: Sequence[str], *, without: Held | None = None
) -> list[NamedPlace]:
    """Every place that names them, but for those that go when all that is held of them is erased."""
    sought = names_of(names, parts_as_written=True)
    gone = without.gone if without else frozenset()
    rows = (
        row for model in _models() for row in model._base_manager.filter(**{model.workroom_path: workroom})
    )
    return [
        place
        for row in rows
        if row_key(row) not in gone and not isinstance(row, Wearer)
        for place in _places_in(_left(row, gone), sought)
    ]


def _left(row: models.Model, gone: frozenset[RowKey]) -> models.Model:
    """The row as it is then: the bin gives up what is erased, and keeps the rest."""
    if gone and isinstance(row, DeletedRow):
        row.rows = left_without(row, gone)
        row.name = row.name if row.rows else ""
    return row


def _models() -> list[type[WorkroomModel]]:
    ours = (model for label in ("catalogue", "fitting") for model in apps.get_app_config(label).get_models())
    return [one for one in ours if issubclass(one, WorkroomModel) and not getattr(one, "is_derived", False)]


def _places_in(row: models.Model, sought: Names) -> Iterator[NamedPlace]:
    for column in row._meta.concrete_fields:
        value = getattr(row, column.attname)
        if not value or column.choices or isinstance(column, TypedText):
            continue
        if isinstance(row, AS_A_WHOLE):
            strings = list(_strings_in(value))
            if any(is_named(one, sought) for one in strings):
                yield NamedPlace(row=row, column=column.name, sentences=(), text="", blanked=None)
                return
        elif isinstance(column, models.TextField | models.CharField):
            if is_named(value, sought):
                yield _place(row, column, value, sought)
        elif isinstance(column, models.JSONField):
            named = [one for one in _strings_in(value) if is_named(one, sought)]
            if named:
                clean = _without(value, sought)
                yield NamedPlace(row=row, column=column.name, sentences=tuple(named), text="", blanked=clean)


def _place(row: models.Model, column: models.Field, text: str, sought: Names) -> NamedPlace:
    """Of a long text the sentence goes, with what it says of the person; of a short one the name alone."""
    is_long = isinstance(column, models.TextField)
    blanked = without_sentences(text, sought) if is_long else without_names(text, sought)
    if column.max_length and len(blanked) > column.max_length:
        blanked = ERASED
    found = tuple(sentences_naming(text, sought)) if is_long else (text,)
    return NamedPlace(row=row, column=column.name, sentences=found, text=text, blanked=blanked)


def _strings_in(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for key, one in value.items():
            yield from (*_strings_in(key), *_strings_in(one))
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _strings_in(one)


def _without(value: Any, sought: Names) -> Any:
    if isinstance(value, str):
        return without_names(value, sought)
    if isinstance(value, Mapping):
        return {_without(key, sought): _without(one, sought) for key, one in value.items()}
    return [_without(one, sought) for one in value] if isinstance(value, list | tuple) else value
