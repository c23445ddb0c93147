"""A garment copied as a start for a similar one."""

from typing import Any
from uuid import uuid4

from django.db import transaction

from catalogue.actions.garment_rows import GarmentRows
from catalogue.actions.scan_rows import ScanRows
from catalogue.exchange.writing import write_reference
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.index.filing import file_references


@transaction.atomic
def copy_reference(
    *, reference: ReferenceGarment, name: str, plates: bool, citations: bool, measures: bool
) -> ReferenceGarment:
    """Return a new garment of that name with the facts of the other and, as asked, its parts.

    Photographs, scans and questions are of the garment that they were taken of, and asked about: they stay.
    """
    whole = ReferenceGarment.objects.for_archive().get(pk=reference.pk)
    said = write_reference(whole, file_of=lambda photo: None)
    said |= {"key": str(uuid4()), "name": name, "questions": []}
    said["citations"] = said["citations"] if citations else []
    said["published_measures"] = said["published_measures"] if measures else []
    said["plates"] = [_as_new(plate) for plate in said["plates"]] if plates else []
    sources = {str(key): pk for key, pk in reference.workroom.sources.values_list("key", "pk")}
    copy = ReferenceGarment(workroom=reference.workroom)
    scans = ScanRows(keep=_no_picture, file_of=lambda scan: None)
    GarmentRows(sources=sources, picture=_no_picture, scans=scans).write(copy, said)
    file_references({copy.pk})
    return copy


def _as_new(plate: dict[str, Any]) -> dict[str, Any]:
    """The plate with keys of its own."""
    keys = {piece["key"]: str(uuid4()) for piece in plate["pieces"]}
    seams = [
        {**seam, "piece_a": keys[seam["piece_a"]], "piece_b": keys[seam["piece_b"]]}
        for seam in plate["seams"]
    ]
    pieces = [{**piece, "key": keys[piece["key"]]} for piece in plate["pieces"]]
    return {**plate, "key": str(uuid4()), "pieces": pieces, "seams": seams}


def _no_picture(said: dict[str, Any]) -> Any:
    raise AssertionError("a copy takes no photographs and no scans")
