"""A log as a stranger may see it: no measure stands in its words, and no name that was not agreed to."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from fitting.calculation.discretion import without_measures, without_names
from fitting.models.log import LogPhoto
from fitting.models.share import Share


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryShared:
    day: date
    garment: str
    text: str
    photos: Sequence[LogPhoto]


def entries_shared(share: Share) -> list[EntryShared]:
    """What was chosen of the log, oldest first."""
    shown, names = set(photos_shared(share)), names_hidden(share)
    return [
        EntryShared(
            day=entry.day,
            garment=words_for_anybody(entry.garment.name if entry.garment else "", names),
            text=words_for_anybody(entry.text, names),
            photos=[photo for photo in entry.photos.all() if photo in shown],
        )
        for entry in share.entries.select_related("garment").prefetch_related("photos").order_by("day", "pk")
    ]


def photos_shared(share: Share) -> list[LogPhoto]:
    """The pictures chosen, less those of the wearer where they did not agree to be seen."""
    chosen = share.photos.all()
    return [photo for photo in chosen if share.wearer_agrees or not photo.shows_wearer]


def names_hidden(share: Share) -> list[str]:
    """The names of everybody dressed in this workroom, but for the wearer who agreed to be named."""
    agreed = share.outfit.wearer_id if share.wearer_agrees else None
    return list(share.outfit.workroom.wearers.exclude(pk=agreed).values_list("name", flat=True))


def words_for_anybody(text: str, names: Iterable[str]) -> str:
    return without_names(without_measures(text), names)
