"""A copy of a garment, made as an archive would bring it."""

from collections.abc import Iterator
from typing import Any
from uuid import uuid4

from django.db import transaction

from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.archive.rows import Files, Rows, Said
from catalogue.workroom.archive.writing import Writer, for_archive
from catalogue.workroom.index.filing import file_references
from catalogue.workroom.kinds import KINDS


@transaction.atomic
def copy_reference(
    *, reference: ReferenceGarment, name: str, plates: bool, citations: bool, measures: bool
) -> ReferenceGarment:
    """Return a new garment of that name with the facts of the other and, as asked, its parts.

    Photographs, scans and questions are of the garment that they were taken of, and asked about: they stay.
    """
    kind = KINDS[ReferenceGarment]
    whole = for_archive(kind).get(pk=reference.pk)
    said = _with_new_keys(Writer(file_of=lambda row: None).row(kind, whole)) | {"name": name, "questions": []}
    for part, is_asked in (("plates", plates), ("citations", citations), ("published_measures", measures)):
        said[part] = said[part] if is_asked else []
    rows = Rows(workroom=reference.workroom, files=Files(opened=open, only_try=False))
    made = rows.write(kind, said)
    file_references({made.pk})
    return made


def _with_new_keys(said: Said) -> Said:
    """The row with keys of its own, by which its parts point to each other."""
    keys = {key: str(uuid4()) for key in _keys_in(said)}

    def renewed(value: Any) -> Any:
        if isinstance(value, dict):
            return {name: renewed(one) for name, one in value.items()}
        if isinstance(value, list):
            return [renewed(one) for one in value]
        return keys.get(value, value) if isinstance(value, str) else value

    return renewed(said)


def _keys_in(said: Any) -> Iterator[str]:
    for one in said.values() if isinstance(said, dict) else said if isinstance(said, list) else ():
        yield from _keys_in(one)
    if isinstance(said, dict) and "key" in said:
        yield said["key"]
