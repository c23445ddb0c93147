"""A reference garment and all its parts, written from what an archive says of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Model

from catalogue.actions.scan_rows import ScanRows
from catalogue.photographs.kinds import PHOTO
from catalogue.photographs.models import Photo
from catalogue.plates.kinds import FASTENING, PIECE, PLATE, READING, SEAM
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.kinds import PUBLISHED_MEASURE, QUESTION, REFERENCE
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.tag import Tag
from catalogue.sources.kinds import CITATION
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
