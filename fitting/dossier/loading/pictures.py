"""The reference garments that a dossier draws on, its photographs, and the list that the fetcher holds to."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from catalogue.photographs.models import Photo
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.files import is_there
from catalogue.workroom.models import Workroom
from fitting.fittings.models.session import ObservationPhoto
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto

# Sizes of copies: at 56 to 78 mm, 310 to 440 dots an inch; over the width of a page, 280.
ON_A_PAGE, AS_WIDE_AS_A_PAGE = 960, 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    address: str
    alt: str
    caption: str
    credit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Photographs:
    reference: ReferenceGarment
    pictures: tuple[Picture, ...]


class Album:
    """Gathers pictures as pages are put together. `files` is then all that may be fetched, by address.

    Whoever may open the dossier is a member of its workroom: only that workroom's photographs are taken.
    """

    def __init__(self, workroom: Workroom) -> None:
        self.workroom = workroom
        self.files: dict[str, str] = {}

    def picture(self, photo: Photo | None, size: int = ON_A_PAGE) -> Picture | None:
        """The photograph as a picture; None where its file is missing, or it is another workroom's."""
        if photo is None or photo.reference.workroom_id != self.workroom.pk:
            return None
        held = "; ".join(part for part in (photo.credit, photo.rights) if part)
        caption = photo.caption or str(photo)
        return self._kept(
            f"photo:{photo.pk}-{size}", photo.file(size), alt=str(photo), caption=caption, credit=held
        )

    def of_the_work(self, photo: LogPhoto | ObservationPhoto, *, caption: str) -> Picture | None:
        """A photograph of the work or a fitting as a picture. Whether it shows this outfit's wearer, the
        caller checks.
        """
        address = f"{photo._meta.model_name}:{photo.pk}"
        return self._kept(address, photo.file(ON_A_PAGE), alt=str(photo), caption=caption)

    def _kept(self, address: str, file: str, *, alt: str, caption: str, credit: str = "") -> Picture | None:
        if not is_there(file):
            return None
        self.files[address] = file
        return Picture(address=address, alt=alt, caption=caption, credit=credit)

    def cover(self, references: Sequence[ReferenceGarment]) -> Picture | None:
        """The front of the first of these garments that has a photograph, else any view of it."""
        for reference in references:
            for photo in sorted(_of_the_garment(reference), key=lambda photo: photo.view != Photo.View.FRONT):
                if picture := self.picture(photo):
                    return picture
        return None


def photographs_of(references: Sequence[ReferenceGarment], album: Album) -> tuple[Photographs, ...]:
    """The photographs of each garment, without those of plates, which stand with their readings."""
    found = (
        Photographs(
            reference=reference, pictures=tuple(filter(None, map(album.picture, _of_the_garment(reference))))
        )
        for reference in references
    )
    return tuple(one for one in found if one.pictures)


def _of_the_garment(reference: ReferenceGarment) -> list[Photo]:
    return [photo for photo in reference.photos.all() if photo.view != Photo.View.PLATE]


def references_of(garments: Iterable[Garment]) -> list[ReferenceGarment]:
    """Every reference garment that the garments draw on, once."""
    keys = dict.fromkeys(
        key
        for garment in garments
        for key in (
            *(link.reference_id for link in garment.references.all()),
            garment.plate and garment.plate.reference_id,
        )
        if key
    )
    found = ReferenceGarment.objects.prefetch_related(
        "photos__source",
        "photos__reference",
        "citations__source",
        "plates__source",
        "published_measures__source",
    ).in_bulk(list(keys))
    return [found[key] for key in keys]
