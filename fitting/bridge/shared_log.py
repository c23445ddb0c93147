"""A log as a stranger may see it: no measure stands in its words, and no name that was not agreed to."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.measuring.levels import LINES
from fitting.models import LogPhoto, Share

# Any figure with a unit that a body is measured in, in digits or in words, and any figure close behind the
# name of a level. A fathom of tape may go with it: better too much than once too little.
_WORDS = (
    "half|quarter|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    "|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred"
)
_DIGITS = r"(?:\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?(?:/\d+)?\s?[½⅓⅔¼¾⅛⅜⅝⅞]?|[½⅓⅔¼¾⅛⅜⅝⅞])"
_NUMBER = rf"(?:{_DIGITS}|\b(?:{_WORDS})\b)"
_UNIT = (
    r"(?:inch(?:es)?|ins?\b(?! the\b| a\b)|cms?\b|mms?\b|centimet(?:re|er)s?|millimet(?:re|er)s?"
    r"|feet\b|foot\b|ft\b|[\"″”'′’](?!\w))"
)
_LEVELS = "|".join(sorted({re.escape(word) for line in LINES.values() for word in line.label.split(" or ")}))
_MEASURE = re.compile(
    rf"(?:[±+−-]\s?)?{_NUMBER}(?:[\s-]*(?:and|of|to|×|x|–)?[\s-]*{_NUMBER})*[\s-]?{_UNIT}"
    rf"|\b\d+(?:[.,/ ]\d+)*(?=\W+(?:(?:at|round|over|for|of|the|her|his|their)\W+){{0,2}}(?:{_LEVELS})\b)",
    re.IGNORECASE,
)
_AT_A_LEVEL = re.compile(rf"(\b(?:{_LEVELS})\b(?:[^\w.;]+[a-z]+){{0,2}}[^\w.;]+){_DIGITS}", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryShared:
    day: date
    garment: str
    text: str
    photos: Sequence[LogPhoto]


def entries_shared(share: Share) -> list[EntryShared]:
    """What was chosen of the log, oldest first."""
    shown = set(photos_shared(share))
    return [
        EntryShared(
            day=entry.day,
            garment=words_for_anybody(entry.garment.name if entry.garment else "", share),
            text=words_for_anybody(entry.text, share),
            photos=[photo for photo in entry.photos.all() if photo in shown],
        )
        for entry in share.entries.select_related("garment").prefetch_related("photos").order_by("day", "pk")
    ]


def photos_shared(share: Share) -> list[LogPhoto]:
    """The pictures chosen, less those of the wearer where they did not agree to be seen."""
    chosen = share.photos.all()
    return [photo for photo in chosen if share.wearer_agrees or not photo.shows_wearer]


def words_for_anybody(text: str, share: Share) -> str:
    """The words without measures, and without the wearer's name where they did not agree to it."""
    shown = _AT_A_LEVEL.sub(r"\1[a measure]", _MEASURE.sub("[a measure]", text))
    wearer = share.outfit.wearer
    if wearer is None or share.wearer_agrees:
        return shown
    names = sorted(
        {wearer.name, *(part for part in wearer.name.split() if len(part) > 1)}, key=len, reverse=True
    )
    pattern = "|".join(rf"\b{re.escape(name)}\b" for name in names if name)
    return re.sub(pattern, "[the wearer]", shown, flags=re.IGNORECASE) if pattern else shown
