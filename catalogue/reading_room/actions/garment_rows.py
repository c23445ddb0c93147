"""A reference garment and all its parts, written from what an archive says of it or as a copy of another."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from django.db import transaction
from django.db.models import Model

from catalogue.photographs.kinds import PHOTO
from catalogue.photographs.models import Photo
from catalogue.plates.kinds import FASTENING, PIECE, PLATE, READING, SEAM
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.reading_room.actions.scan_rows import ScanRows
from catalogue.reading_room.exchange.writing import write_reference
from catalogue.references.kinds import PUBLISHED_MEASURE, QUESTION, REFERENCE
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.tag import Tag
from catalogue.sources.kinds import CITATION
from catalogue.workroom.index.filing import file_references
from catalogue.workroom.kinds import Kind
from catalogue.workroom.reader.columns import columns_of

Said = dict[str, Any]
Keys = Mapping[str, int]
# Stores the file of a photograph that is new here, and gives its stem, width and height.
KeepPicture = Callable[[Said], dict[str, Any]]


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentRows:
    """`sources`: the workroom's sources by the key that the archive knows them by."""

    sources: Keys
    picture: KeepPicture
    scans: ScanRows

    def write(self, reference: ReferenceGarment, said: Said) -> None:
        """Make the garment as said. Parts that have a key and are here, but are not said, stay."""
        _set(reference, columns_of(REFERENCE, said))
        reference.save()
        workroom = reference.workroom
        held = {tag.name.casefold(): tag for tag in Tag.objects.filter(workroom=workroom)}
        reference.tags.set(
            held.get(name.casefold()) or Tag.objects.create(workroom=workroom, name=name)
            for name in said["tags"]
        )
        self._replace(CITATION, reference.citations, said["citations"], reference=reference)
        self._replace(
            PUBLISHED_MEASURE, reference.published_measures, said["published_measures"], reference=reference
        )
        photos = {one["key"]: self._write_photo(reference, one).pk for one in said["photos"]}
        for one in said["plates"]:
            self._write_plate(reference, one, photos)
        for one in said["questions"]:
            self._keyed(QUESTION, reference.questions, one, reference=reference).save()

    def _write_photo(self, reference: ReferenceGarment, said: Said) -> Photo:
        photo = self._keyed(PHOTO, reference.photos, said, reference=reference)
        if photo.pk is None:
            _set(photo, self.picture(said))
        photo.save()
        return photo

    def _write_plate(self, reference: ReferenceGarment, said: Said, photos: Keys) -> Plate:
        plate = self._keyed(PLATE, reference.plates, said, reference=reference)
        plate.picture_id = photos.get(said["picture"])
        plate.save()
        self._replace(FASTENING, plate.fastenings, said["fastenings"], plate=plate)
        pieces = {one["key"]: self._write_piece(plate, one) for one in said["pieces"]}
        seams = [
            {**one, "piece_a_id": pieces[one["piece_a"]].pk, "piece_b_id": pieces[one["piece_b"]].pk}
            for one in said["seams"]
        ]
        self._replace(SEAM, plate.seams, seams, plate=plate)
        self.scans.write(plate, said, pieces)
        return plate

    def _write_piece(self, plate: Plate, said: Said) -> Piece:
        piece = self._keyed(PIECE, plate.pieces, said, plate=plate)
        piece.save()
        self._replace(READING, piece.readings, said["readings"], piece=piece)
        return piece

    def _keyed(self, kind: Kind, held: Any, said: Said, **whole: Model) -> Any:
        row = held.filter(key=said["key"]).first() or kind.model(**whole)
        _set(row, columns_of(kind, said))
        if "source" in kind.points_to:
            row.source_id = self.sources.get(said["source"])
        return row

    def _replace(self, kind: Kind, held: Any, said: list[Said], **whole: Model) -> None:
        """Rows without a key have nothing to be known by: they are written anew."""
        held.all().delete()
        rows = [kind.model(**whole, **columns_of(kind, one)) for one in said]
        for row, one in zip(rows, said, strict=True):
            for name in kind.points_to:
                pk = self.sources.get(one["source"]) if name == "source" else one[f"{name}_id"]
                setattr(row, f"{name}_id", pk)
        kind.model.objects.bulk_create(rows)


def _set(row: Model, columns: Said) -> None:
    for name, value in columns.items():
        setattr(row, name, value)


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
        {**seam, "key": str(uuid4()), "piece_a": keys[seam["piece_a"]], "piece_b": keys[seam["piece_b"]]}
        for seam in plate["seams"]
    ]
    pieces = [{**piece, "key": keys[piece["key"]]} for piece in plate["pieces"]]
    return {**plate, "key": str(uuid4()), "pieces": pieces, "seams": seams}


def _no_picture(said: dict[str, Any]) -> Any:
    raise AssertionError("a copy takes no photographs and no scans")
