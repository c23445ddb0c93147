"""What a workroom holds of outfits; and which of their garments draw on reference garments."""

from collections.abc import Collection, Iterator
from typing import Any

from django.db.models import Q, QuerySet

from catalogue.lengths.calculation.levels import LINES
from catalogue.photographs.kinds import keep_own, kind_of_photographs
from catalogue.workroom import uses
from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.kinds import Kind, excuse, register
from catalogue.workroom.models import User
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept
from fitting.outfits.actions import number_anew_around
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternChange, PatternInHand
from fitting.outfits.models.share import Share
from fitting.outfits.showing import OUTFITS


def _read_lines(given: Any) -> None:
    for line in given:
        LINES[line]


# What is made is the workroom's: it stays, for nobody in particular.
_OUTFITS = OfPerson(
    by="wearer",
    stays=True,
    says=("name", "occasion", "occasion_on"),
    more=lambda outfit: {"garments": [garment.name for garment in outfit.garments.all()]},
)
_PHOTOGRAPHS = OfPerson(by="wearer", for_whom="entry__outfit__wearer", where={"shows_wearer": True})
register(
    Kind(model=PatternInHand, name="patterns_in_hand"),
    Kind(model=PatternChange, part_of="pattern"),
    Kind(model=Outfit, name="outfits", of_person=_OUTFITS),
    Kind(model=Garment, part_of="outfit", checks={"lies_at": as_kept(_read_lines)}, moved=number_anew_around),
    Kind(model=GarmentReference, part_of="garment"),
    Kind(model=Ease, part_of="garment", once="line"),
    Kind(model=Material, part_of="outfit"),
    Kind(model=LogEntry, part_of="outfit"),
    kind_of_photographs(LogPhoto, part_of="entry", files="log/", keep=keep_own, of_person=_PHOTOGRAPHS),
)
excuse(
    "A secret address opens one house's door, and ends by itself.",
    Share,
    of_person=OfPerson(for_whom="outfit__wearer"),
)


def _garments_that_use(references: Collection[int], user: User) -> Iterator[uses.Use]:
    drawing_on = Garment.objects.visible_to(user).filter(
        Q(references__reference__in=references) | Q(plate__reference__in=references)
    )
    for garment in drawing_on.select_related("outfit").distinct():
        yield uses.Use(label=f"{garment.name}, {garment.outfit}", url=garment.get_absolute_url())


def _references_used() -> Iterator[QuerySet]:
    yield GarmentReference.objects.values("reference")
    yield Garment.objects.filter(plate__isnull=False).values("plate__reference")


uses.register(_garments_that_use, _references_used)
register_deletions(
    Deletion(
        model=Outfit,
        name="“{row}”",
        way=lambda outfit: [OUTFITS],
        has_page=True,
        says="Its wearer, their measures and every reference garment stay.",
    ),
    Deletion(
        model=Garment,
        name="“{row}”",
        way=lambda garment: [OUTFITS, garment.outfit],
        has_page=True,
        says="Its plate, its reference garments and the wearer’s measures stay.",
    ),
    Deletion(
        model=Material,
        the="it",
        name="“{row}”",
        asks="Take {} off the list",
        way=lambda one: [OUTFITS, one.outfit, ("Materials and money", "material-list", one.outfit_id)],
        says="What was paid for it is no longer counted.",
    ),
    Deletion(
        model=LogEntry,
        the="the entry",
        name="the entry of {row.day:%-d %B %Y}",
        way=lambda entry: [OUTFITS, entry.outfit, ("Log", "log-list", entry.outfit_id)],
        tells=lambda entry, user: [
            entry.text,
            "Its hours and its cost no longer count. The garment keeps its stage.",
        ],
    ),
    Deletion(
        model=LogPhoto,
        the="the photograph",
        way=lambda photo: [OUTFITS, photo.entry.outfit, photo.entry],
        picture="log-photo-file",
        says="The entry stays.",
    ),
    Deletion(
        model=PatternInHand,
        the="the pattern",
        name="“{row}”",
        way=lambda pattern: [("Patterns in hand", "pattern-list")],
        has_page=True,
        says="Comparisons made while it was here keep what they said.",
    ),
)
