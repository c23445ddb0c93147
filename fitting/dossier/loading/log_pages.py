"""The log of an outfit, month by month, with its photographs; and what each garment has taken so far."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby

from fitting.dossier.loading.pictures import Album, Picture
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry
from fitting.outfits.models.outfit import Outfit


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedEntry:
    entry: LogEntry
    pictures: tuple[Picture, ...]

    @property
    def is_beside(self) -> bool:
        """Whether its picture stands beside the words; several go below them."""
        return len(self.pictures) == 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    name: str
    entries: tuple[PrintedEntry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlay:
    """What the log says that one garment has taken, or the outfit as a whole."""

    name: str
    entries: int
    hours: float
    cost: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPages:
    """`taken`: garment by garment in dressing order, last what belongs to none; `total` sums them up."""

    months: tuple[Month, ...]
    taken: tuple[Outlay, ...]
    total: Outlay


def log_pages(outfit: Outfit, garments: Collection[Garment], *, album: Album) -> LogPages:
    """What was done on these garments and on the outfit as a whole, oldest first.

    A photograph of somebody whom the outfit was for before is left out.
    """
    logged = outfit.log.for_list_page().order_by("day", "pk")
    entries = [one for one in logged if one.garment in (None, *garments)]
    printed = [PrintedEntry(entry=one, pictures=_pictures(one, outfit, album)) for one in entries]
    by_month = groupby(printed, key=lambda one: f"{one.entry.day:%B %Y}")
    return LogPages(
        months=tuple(Month(name=name, entries=tuple(found)) for name, found in by_month),
        taken=tuple(_taken_apart(entries)),
        total=_taken("in all", entries),
    )


def _pictures(entry: LogEntry, outfit: Outfit, album: Album) -> tuple[Picture, ...]:
    shown = (
        album.of_the_work(photo, caption=photo.caption)
        for photo in entry.photos.all()
        if photo.wearer_id in (None, outfit.wearer_id)
    )
    return tuple(filter(None, shown))


def _taken_apart(entries: Sequence[LogEntry]) -> list[Outlay]:
    garments = sorted({one.garment for one in entries if one.garment}, key=lambda one: (one.order, one.pk))
    apart = [_taken(one.name, [entry for entry in entries if entry.garment == one]) for one in garments]
    whole = [entry for entry in entries if not entry.garment]
    return [*apart, _taken("the outfit", whole)] if whole else apart


def _taken(name: str, entries: Sequence[LogEntry]) -> Outlay:
    return Outlay(
        name=name,
        entries=len(entries),
        hours=sum(one.hours or 0 for one in entries),
        cost=sum((one.cost or Decimal(0) for one in entries), Decimal(0)),
    )
