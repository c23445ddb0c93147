"""What each kind of source is in BibTeX, and which of its fields is which column."""

import re
from collections.abc import Mapping

from catalogue.sources.models import Source

_Kind = Source.Kind
# The entry of each kind, and the `type` that tells apart what BibTeX has one entry for.
ENTRIES: Mapping[str, tuple[str, str]] = {
    _Kind.BOOK: ("book", ""),
    _Kind.CHAPTER: ("incollection", ""),
    _Kind.ARTICLE: ("article", ""),
    _Kind.MUSEUM_RECORD: ("misc", "museum record"),
    _Kind.TRADE_MANUAL: ("book", "trade manual"),
    _Kind.FASHION_PLATE: ("misc", "fashion plate"),
    _Kind.PAINTING: ("misc", "painting"),
    _Kind.WEB_PAGE: ("misc", "web page"),
    _Kind.MANUSCRIPT: ("unpublished", ""),
    _Kind.OWN_STUDY: ("unpublished", "own study"),
}
KINDS: Mapping[str, str] = {
    "inbook": _Kind.CHAPTER,
    "inproceedings": _Kind.CHAPTER,
    "conference": _Kind.CHAPTER,
    "online": _Kind.WEB_PAGE,
    "electronic": _Kind.WEB_PAGE,
    "www": _Kind.WEB_PAGE,
    "periodical": _Kind.ARTICLE,
}
TEXTS = {
    "title": "title",
    "volume": "volume",
    "number": "issue",
    "edition": "edition",
    "publisher": "publisher",
    "address": "place",
    "copyright": "rights",
    "note": "notes",
}
# The same by other names, as other writers of BibTeX have it.
ALSO = {
    "location": "address",
    **dict.fromkeys(("howpublished", "school", "institution", "organization"), "publisher"),
    "issue": "number",
    "annote": "note",
    "journaltitle": "journal",
}
# As they stand: a backslash in an address would be another address, and 1785~ is a date, not a narrow space.
AS_THEY_ARE = ("url", "doi", "isbn")
DATES = ("date", "year")
_DATE_IN_THE_FORMAT = re.compile(r"(?!.*--)[0-9X~?%/.-]+")


def is_as_it_is(name: str, text: str) -> bool:
    return name in AS_THEY_ARE or (name in DATES and bool(_DATE_IN_THE_FORMAT.fullmatch(text)))
