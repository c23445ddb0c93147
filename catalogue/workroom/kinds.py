"""What a workroom holds: a row in this table for every model.

From it come the archive, what an archive that is taken in does, copying, what is held of a person, and which
words a name may stand in. What a row says follows from its model: its columns, what it points to, who made
it; a kind tells only what no column can. Each subject tells its own kinds, in its `kinds.py`, when the app
starts; nothing here knows what a workroom holds. A model that is no kind is excused, with the reason.
What checks JSON imports what it needs when it is called: no start of the program pays for an archive.

In an archive lengths stand without their `_um`: `"reading": "3/4 in"`. Rows are known by their keys, people
by their names; no number of this database is in it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import IO, Any

from django.db.models import DateField, Field, ForeignKey, JSONField, Model, Q, QuerySet

from catalogue.lengths.models import LengthField
from catalogue.workroom.models import DeletedRow, KeyedModel, Member, UnwantedFile, User, Workroom
from catalogue.workroom.models.one_time import Invitation, SignInAddress
from catalogue.workroom.persons import OF_PERSON, OfPerson
from catalogue.workroom.spreadsheet import Spreadsheet

Said = dict[str, Any]
# Of this database only: its numbers, and when and by whom a row was last written in it.
OURS = {"id", "key", "created_at", "changed_at", "changed_by"}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kind:
    """`part_of`: the field with the row that it stands in; a part has the name that it has for that row.

    `name`: of the list in an archive, of what stands in no other row. `left_out`: columns that an archive
    does not say. `derived`: those of them that follow from what it says. `once`: the column by which a row
    without a key is known in its list. `checks`: for each column of JSON, what raises FaultyValue at one that
    our own pages would not keep. `alike`: which rows say the same as these columns, under another key.
    `files`: the folder of an archive with the file that each row has; `most`: how many bytes it may have;
    `keep`: stores for a row an open file, or raises FaultyValue; `replaced`: called before one takes the
    place of another. `written`: called with each row that an archive made or changed. `pixels_of`: without
    which it means nothing, and is not in an archive. `stays_unsaid`: of which those here stay where an
    archive says none. `of_person`: which rows are one person's, where any are. `lets_go`: of what would be
    deleted with a row, what stays, by the pointer that it loses. `moved`: called when a row is thrown away or
    brought back. `rule`: what no column can say (`reader/row_values.py`); `rule_of_whole`: the same of the
    row that it stands in. `twin`: what no two rows of its list may share. `spreadsheet`: its table.
    """

    model: type[Model]
    part_of: str = ""
    name: str = ""
    left_out: tuple[str, ...] = ()
    derived: Callable[[Said], dict[str, Any]] = lambda said: {}
    once: str = ""
    checks: Mapping[str, Callable[[Any], None]] = field(default_factory=dict)
    files: str = ""
    most: int = 0
    keep: Callable[[Any, IO[bytes]], None] | None = None
    pixels_of: type[Model] | None = None
    stays_unsaid: bool = False
    alike: Callable[[Mapping[str, Any]], Q] | None = None
    rule: Callable[[Any], Iterable[tuple[str, str]]] = lambda told: ()
    rule_of_whole: Callable[[Any], Iterable[tuple[str, str]]] = lambda told: ()
    twin: Callable[[Said], str] | None = None
    written: Callable[[Any], None] = lambda row: None
    replaced: Callable[[Any], None] = lambda row: None
    of_person: OfPerson | None = None
    spreadsheet: Spreadsheet | None = None
    lets_go: Callable[[Any], Mapping[str, QuerySet]] = lambda row: {}
    moved: Callable[[Any], None] = lambda row: None

    @property
    def has_key(self) -> bool:
        return issubclass(self.model, KeyedModel)

    @property
    def list_name(self) -> str:
        return self.name or _way_up(self).remote_field.get_accessor_name()

    @property
    def wholes(self) -> list["Kind"]:
        """The kinds in whose rows it stands, from the nearest outwards."""
        if not self.part_of:
            return []
        whole = KINDS[_way_up(self).related_model]
        return [whole, *whole.wholes]

    def way_to(self, whole: "Kind") -> str:
        """The way up from a row to that in which it stands."""
        steps = [self, *self.wholes]
        return "__".join(one.part_of for one in steps[: steps.index(whole)])

    def stands_beside(self, other: "Kind") -> bool:
        """Whether both stand in one row of some kind: what points from one to the other stays within it."""
        return bool({self, *self.wholes} & {*other.wholes})

    @property
    def word(self) -> str:
        return str(self.model._meta.verbose_name_plural)

    def fields(self) -> dict[str, Field]:
        """Each column by the name it has in an archive."""
        return _columns(self)

    def moving(self) -> list[str]:
        """Columns with days and moments in them, and those of JSON, where some may stand."""
        return [name for name, one in self.fields().items() if isinstance(one, DateField | JSONField)]

    def names(self) -> set[str]:
        """All that a row says in an archive, by name."""
        own = {"key"} if self.has_key else set()
        own |= {"file"} if self.files else set()
        pointed = {*self.points_to, *self.loose, *self.named, *self.people}
        return own | pointed | {*self.fields(), *self.parts, *self.only}

    @property
    def points_to(self) -> dict[str, "Kind"]:
        """Fields that hold a row that stands before this one, and the kind of that."""
        return {name: KINDS[model] for name, model in _pointers(self).items() if model is not self.model}

    @property
    def loose(self) -> dict[str, "Kind"]:
        """Fields with rows that may come after this one: one of its own kind, or any number of another."""
        own = {name: model for name, model in _pointers(self).items() if model is self.model}
        return {name: KINDS[model] for name, model in (own | _many(self)).items()}

    @property
    def named(self) -> dict[str, type[Model]]:
        """Fields with rows that an archive knows by their name alone, and makes where they are not here."""
        return {
            one.name: one.related_model
            for one in self.model._meta.many_to_many
            if getattr(one.related_model, "comes_back_by_name", False)
        }

    @property
    def people(self) -> tuple[str, ...]:
        """Fields with a person, who stands in an archive by name."""
        return tuple(
            one.name
            for one in self.model._meta.concrete_fields
            if one.related_model is User and one.name not in OURS | {*self.left_out}
        )

    @property
    def parts(self) -> dict[str, "Kind"]:
        """Lists of rows that stand inside this one, by the name it has for them, in order."""
        return {name: kind for name, kind in _inside(self).items() if not _way_up(kind).one_to_one}

    @property
    def only(self) -> dict[str, "Kind"]:
        """Parts of which there is at most one."""
        return {name: kind for name, kind in _inside(self).items() if _way_up(kind).one_to_one}


KINDS: dict[type[Model], Kind] = {}
# Models of which no archive holds a row, with the reason.
EXCUSED: dict[type[Model], str] = {}
# The lists of an archive in the order they are written and taken: first what others point to.
LISTS: dict[str, Kind] = {}


def register(*kinds: Kind) -> None:
    KINDS.update({kind.model: kind for kind in kinds})
    OF_PERSON.update({kind.model: kind.of_person for kind in kinds if kind.of_person})
    for known in (_columns, _pointers, _inside):
        known.cache_clear()
    LISTS.clear()
    LISTS.update({kind.name: kind for kind in _in_order(one for one in KINDS.values() if not one.part_of)})


def excuse(reason: str, *models: type[Model], of_person: OfPerson | None = None) -> None:
    EXCUSED.update(dict.fromkeys(models, reason))
    if of_person:
        OF_PERSON.update(dict.fromkeys(models, of_person))


def archive_name(column: Field) -> str:
    typed = isinstance(column, LengthField)
    return (column.length_name or column.name.removesuffix("_um")) if typed else column.name


@cache
def _columns(kind: Kind) -> dict[str, Field]:
    fields = kind.model._meta.concrete_fields
    out = OURS | {one.text_name for one in fields if isinstance(one, LengthField)} | {*kind.left_out}
    return {archive_name(one): one for one in fields if not (one.is_relation or one.name in out)}


@cache
def _pointers(kind: Kind) -> dict[str, type[Model]]:
    """Each field that holds another row of the table, and its model."""
    apart = {kind.part_of, *kind.left_out}
    return {
        one.name: one.related_model
        for one in kind.model._meta.concrete_fields
        if one.related_model in KINDS and one.name not in apart
    }


def _many(kind: Kind) -> dict[str, type[Model]]:
    return {
        one.name: one.related_model
        for one in kind.model._meta.many_to_many
        if one.related_model in KINDS and one.name not in kind.left_out
    }


@cache
def _inside(kind: Kind) -> dict[str, Kind]:
    own = [one for one in KINDS.values() if one.part_of and _way_up(one).related_model is kind.model]
    return {one.list_name: one for one in _in_order(own)}


def _in_order(kinds: Iterable[Kind]) -> list[Kind]:
    """Each after all that it, or a part of it, points to; else as they were registered."""
    whole, placed = list(kinds), {}
    holds = {one: {kind.model for kind in _with_parts(one)} for one in whole}

    def place(one: Kind) -> None:
        if one in placed:
            return
        placed[one] = None
        asked = {model for kind in _with_parts(one) for model in _pointers(kind).values()}
        for other in whole:
            if holds[other] & asked:
                place(other)
        # It stands behind what it asked for.
        placed.pop(one)
        placed[one] = None

    for one in whole:
        place(one)
    return list(placed)


def _with_parts(kind: Kind) -> Iterator[Kind]:
    yield kind
    for part in KINDS.values():
        if part.part_of and _way_up(part).related_model is kind.model:
            yield from _with_parts(part)


def _way_up(kind: Kind) -> ForeignKey:
    return kind.model._meta.get_field(kind.part_of)


excuse("The people of one house, and what each may do there.", User, Workroom, Member)
excuse("An address that lets one person in, once.", Invitation, SignInAddress)
excuse("What one house threw away.", DeletedRow, UnwantedFile)
