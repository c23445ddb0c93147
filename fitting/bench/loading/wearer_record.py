"""All that is held about one person: theirs to see, to take away as JSON, and to have erased."""

from datetime import datetime
from pathlib import PurePosixPath
from typing import Any

from django.core import serializers
from django.db.models import Model

from catalogue.lengths.models import LengthField
from catalogue.workroom.archive.writing import Said, Writer, for_archive
from catalogue.workroom.kinds import KINDS, Kind
from catalogue.workroom.persons import OF_PERSON, OfPerson
from fitting.bench.loading.wearer_rows import Held, held_of
from fitting.wearers.models import Wearer

# Version 1 said of each kind what was written for it by hand.
FORMAT, VERSION = "plate-and-toile wearer", 2


class RecordWriter(Writer):
    """Rows as an archive says them, for the person: lengths in millimetres too, names in place of keys."""

    def row(self, kind: Kind, row: Model, *, without: frozenset[type[Model]] = frozenset()) -> Said:
        said = Writer.row(self, kind, row, without=without)
        said.pop("key", None)
        for name, column in kind.fields().items():
            if isinstance(column, LengthField) and (length := column.value_from_object(row)):
                said[name] = {"as_typed": length.text, "mm": length.mm}
        theirs = OF_PERSON.get(kind.model, OfPerson())
        return {name: said[name] for name in theirs.says or said} | theirs.more(row)

    def _key(self, other: Model | None) -> str | None:
        return str(other) if other else None


def wearer_record(wearer: Wearer, *, at: datetime) -> dict[str, Any]:
    """Every figure as typed and in millimetres; comparisons with what went in and came out."""
    held, writer = held_of(wearer), RecordWriter(file_of=_file_name)
    kind = KINDS[Wearer]
    return {
        "format": FORMAT,
        "version": VERSION,
        "exported_at": at.isoformat(),
        **writer.row(kind, for_archive(kind).get(pk=wearer.pk)),
        **dict(_lists(held, writer)),
        "recently_deleted": [_thrown_away(row) for row in held.binned if type(row) in KINDS],
    }


def _lists(held: Held, writer: RecordWriter) -> Any:
    """The rows of each kind by its word, but for what the person's own row says already."""
    for model, rows in held.theirs.items():
        kind = KINDS.get(model)
        if kind is None or KINDS[Wearer] in kind.wholes:
            continue
        told = for_archive(kind).filter(pk__in=[row.pk for row in rows])
        yield kind.word.replace(" ", "_"), [_stood_in(kind, row) | writer.row(kind, row) for row in told]


def _stood_in(kind: Kind, row: Model) -> Said:
    return {kind.part_of: str(getattr(row, kind.part_of))} if kind.part_of else {}


def _file_name(row: Any) -> str:
    """The name of its largest file, as the archive of photographs has it."""
    return PurePosixPath(row.files()[-1]).name if row.files() else ""


def _thrown_away(row: Model) -> Said:
    (said,) = serializers.serialize("python", [row])
    return {"what": str(row._meta.verbose_name), **said["fields"]}
