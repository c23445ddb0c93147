"""Rows as the archive says them."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid5

from django.db.models import Field, Model, QuerySet

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.lengths import to_um
from catalogue.lengths.models import LengthField, TypedLength
from catalogue.workroom.kinds import KINDS, LISTS, Kind
from catalogue.workroom.models import Workroom

# Version 1 says nothing of scans, tracing and proportional drafts, version 2 nothing of outfits and people.
FORMAT, VERSION = "plate-and-toile catalogue", 3
READS = (1, 2, 3)
# The name of a file in the archive; None where it is missing, and its row is left out.
FileOf = Callable[[Any], str | None]
Said = dict[str, Any]
AT_A_TIME = 200


def no_file(row: Model) -> str:
    """A name for the file of every row, for those who only ask what a row says and want no file."""
    return "no file"


@dataclass(frozen=True, slots=True, kw_only=True)
class Writer:
    """`personal`: whether body measures go with it, what is reckoned from them, and whose they are."""

    file_of: FileOf = no_file
    personal: bool = True

    def lists(self, workroom: Workroom) -> Iterator[tuple[str, Iterator[Said]]]:
        """Each list of the workroom with its rows, in the order in which they were made.

        A few rows are held at a time. The rows of a list are to be taken before the next list is.
        """
        for name, kind in LISTS.items():
            rows = for_archive(kind).of_workroom(workroom).order_by("pk").iterator(chunk_size=AT_A_TIME)
            yield name, (self.row(kind, row) for row in rows if self.goes(row))

    def goes(self, row: Model) -> bool:
        """Whether the row itself is in the archive."""
        if row.is_personal and not self.personal:
            return False
        return not KINDS[type(row)].files or self.file_of(row) is not None

    def row(self, kind: Kind, row: Model, *, without: frozenset[type[Model]] = frozenset()) -> Said:
        said: Said = {"key": str(row.key)} if kind.has_key else {}
        said |= {name: _value(row, column) for name, column in kind.fields().items()}
        for name in kind.points_to:
            said[name] = self._key(getattr(row, name))
        for name in kind.people:
            person = getattr(row, name)
            said[name] = str(person) if person else None
        if kind.files:
            said["file"] = self.file_of(row)
        for name in kind.named:
            said[name] = sorted(one.name for one in getattr(row, name).all())
        for name in kind.loose:
            said[name] = self._loose(row, name)
        for name, part in kind.only.items():
            held = [getattr(row, name)] if hasattr(row, name) else []
            said[name] = next(self._parts(part, held, without), None)
            without |= _pixels(part) if said[name] is None else frozenset()
        for name, part in kind.parts.items():
            said[name] = list(self._parts(part, getattr(row, name).all(), without))
        return said

    def _parts(self, kind: Kind, rows: Any, without: frozenset[type[Model]]) -> Iterator[Said]:
        if kind.model in without:
            return
        for row in sorted(rows, key=lambda one: one.pk):
            if self.goes(row):
                yield self.row(kind, row, without=without)

    def _key(self, other: Model | None) -> str | None:
        return str(other.key) if other and self.goes(other) else None

    def _loose(self, row: Model, name: str) -> Any:
        if not row._meta.get_field(name).many_to_many:
            return self._key(getattr(row, name))
        return sorted(filter(None, map(self._key, getattr(row, name).all())))


def for_archive(kind: Kind) -> QuerySet:
    """Rows with all that an archive says of them: a few queries for any number of rows."""
    return kind.model._default_manager.prefetch_related(*_asked(kind))


def _asked(kind: Kind, way: str = "") -> Iterator[str]:
    for name in (*kind.points_to, *kind.loose, *kind.people, *kind.named):
        yield f"{way}{name}"
    for name, part in (*kind.parts.items(), *kind.only.items()):
        yield f"{way}{name}"
        yield from _asked(part, f"{way}{name}__")


def _pixels(kind: Kind) -> frozenset[type[Model]]:
    return frozenset(one.model for one in KINDS.values() if one.pixels_of is kind.model)


def _value(row: Model, column: Field) -> Any:
    if isinstance(column, LengthField):
        return _length(column.value_from_object(row))
    value = getattr(row, column.name)
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, Decimal | UUID) else value


def _length(length: TypedLength | None) -> str | int | None:
    """The text as typed where it says all; else the micrometres."""
    if length is None:
        return None
    try:
        return length.text if length.text and to_um(length.exact_mm) == length.um else length.um
    except NotUnderstood:
        return length.um


def with_keys(given: Any) -> Any:
    """What versions 1 and 2 leave unsaid, said: of both seams, scans and calibrations have no keys.

    They get those that a migration gave the rows they were written from, so that an archive taken in twice
    finds them. What is faulty otherwise is left for the reader.
    """
    for plate in _dicts(given.get("plates")) if isinstance(given, dict) else ():
        try:
            _give_keys(plate, UUID(plate.get("key")))
        except (ValueError, TypeError, AttributeError):
            continue
    return given


def _give_keys(plate: Said, key: UUID) -> None:
    if isinstance(scan := plate.get("scan"), dict):
        scan["key"] = str(uuid5(key, "scan"))
        for one in _dicts(scan.get("calibrations")):
            one["key"] = str(uuid5(key, f"calibration {one.get('number')}"))
    met: Counter[str] = Counter()
    for seam in _dicts(plate.get("seams")):
        names = ("piece_a", "edge_a", "piece_b", "edge_b")
        said = " ".join(str(seam.get(name, "")) for name in names)
        met[said] += 1
        seam["key"] = str(uuid5(key, f"seam {said} {met[said]}"))


def _dicts(given: Any) -> list[Said]:
    return [one for one in given if isinstance(one, dict)] if isinstance(given, list) else []
