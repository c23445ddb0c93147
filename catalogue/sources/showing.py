"""Sources as a bibliography: one function, our own plain style, the kinds told apart by a table.

Persons come first, family name ahead; then the title, where it appeared, and what it can be found by.
"""

import re
from collections.abc import Iterable, Mapping

from django.utils.html import conditional_escape, format_html
from django.utils.safestring import SafeString, mark_safe

from catalogue.sources.calculation.dates import describe
from catalogue.sources.models import Source
from catalogue.workroom.index.words import folded

_BY_ITSELF = "<i>{}</i>"
_IN_QUOTES = "“{}”"
_PLAIN = "{}"
_Kind = Source.Kind
# How a title stands: what was published by itself in italics, what is part of it in quotation marks.
_TITLES: Mapping[str, str] = {
    _Kind.BOOK: _BY_ITSELF,
    _Kind.TRADE_MANUAL: _BY_ITSELF,
    _Kind.PAINTING: _BY_ITSELF,
    _Kind.CHAPTER: _IN_QUOTES,
    _Kind.ARTICLE: _IN_QUOTES,
    _Kind.FASHION_PLATE: _IN_QUOTES,
    _Kind.WEB_PAGE: _IN_QUOTES,
    _Kind.MUSEUM_RECORD: _PLAIN,
    _Kind.MANUSCRIPT: _PLAIN,
    _Kind.OWN_STUDY: _PLAIN,
}
_PUBLISHED = {_Kind.BOOK, _Kind.TRADE_MANUAL, _Kind.CHAPTER, _Kind.ARTICLE, _Kind.WEB_PAGE}
# A word for what a title alone does not tell.
_WORDS: Mapping[str, str] = {
    _Kind.PAINTING: "Painting",
    _Kind.FASHION_PLATE: "Fashion plate",
    _Kind.MUSEUM_RECORD: "Museum record",
    _Kind.MANUSCRIPT: "Manuscript",
    _Kind.OWN_STUDY: "Own study",
}
# Years, months and days with their marks, as programs for citing write them. 1801-04 is April to all of them.
_DAY = r"\d{2}[\dX]{2}(-\d\d){0,2}[~?%]?"
_IN_THE_FORMAT = re.compile(rf"{_DAY}(/{_DAY})?")


def cite(source: Source) -> SafeString:
    """Return one entry as HTML, ended by a full stop."""
    published = _published_by_a_house if source.kind in _PUBLISHED else _held_somewhere
    parts = [
        _people(source.authors),
        format_html(_TITLES[source.kind], source.title),
        _WORDS.get(source.kind, ""),
        _edition(source.edition),
        *published(source),
        format_html('<a href="{0}">{0}</a>', source.url) if source.url else "",
        f"Looked at {source.accessed_on.day} {source.accessed_on:%B %Y}" if source.accessed_on else "",
    ]
    return mark_safe(" ".join(_ended(part) for part in parts if part))  # noqa: S308  each part is escaped


def bibliography(sources: Iterable[Source]) -> list[SafeString]:
    """Return the entries by their first word, each source once."""
    once = {source.pk: source for source in sources}
    return [cite(source) for source in sorted(once.values(), key=_sorted_by)]


def _published_by_a_house(source: Source) -> list[str]:
    """Thornby: Halfpenny Row Press, 2004; or in its journal or book, with where it stands there."""
    house = ": ".join(part for part in (source.place, source.publisher) if part)
    container = _container(source)
    dated = _date(source.date)
    imprint = f"{house}, {dated}" if house and dated else house or _begun(dated)
    if container and not house and dated:
        return [format_html("{}, {}", container, dated), source.identifier]
    if not container:
        return [_volume(source), imprint, source.identifier]
    return [container, imprint, source.identifier]


def _held_somewhere(source: Source) -> list[str]:
    """1791. Thornby Museum, P.61."""
    parts = (source.publisher, source.place, source.identifier, source.pages)
    holder = ", ".join(part for part in parts if part)
    return [_container(source), _begun(_date(source.date)), holder]


def _container(source: Source) -> str:
    """In The Seamside Quarterly 12, no. 3, 44–61; in Wide Skirts, edited by B. Birch, 5–9."""
    if not source.container:
        return ""
    number = f"no. {source.issue}" if source.issue else ""
    editors = f"edited by {_people(source.editors, given_name_first=True)}" if source.editors else ""
    after = "".join(f", {part}" for part in (number, editors, source.pages) if part)
    volume = f" {source.volume}" if source.volume else ""
    return format_html("In <i>{}</i>{}{}", source.container, volume, after)


def _volume(source: Source) -> str:
    """Volume 2; edited by B. Birch: of a book that stands by itself."""
    editors = f"Edited by {_people(source.editors, given_name_first=True)}" if source.editors else ""
    parts = [f"Volume {source.volume}" if source.volume else "", editors, source.pages]
    return ". ".join(part for part in parts if part)


def _date(date: str) -> str:
    """“1785~” as about 1785, “2004-05” as May 2004; a date in any other form stands as it is."""
    return describe(date) if _IN_THE_FORMAT.fullmatch(date) else date


def _begun(part: str) -> str:
    """“about 1790” where it stands by itself: About 1790."""
    return part[:1].upper() + part[1:]


def _edition(edition: str) -> str:
    """“2” as 2nd edition; whatever else was typed stands as it is."""
    if not edition.isdecimal() or len(edition) > 3:
        return edition
    number = int(edition)
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending} edition"


def _people(authors: str, *, given_name_first: bool = False) -> str:
    """“Abernagel, Leontine; Sauvade, Rémy” as “Abernagel, Leontine, and Rémy Sauvade”."""
    first, *others = [one.strip() for one in authors.split(";") if one.strip()] or [""]
    names = [_given_name_first(first) if given_name_first else first, *map(_given_name_first, others)]
    if len(names) == 1:
        return names[0]
    *before, last = names
    comma = "" if given_name_first and len(names) == 2 else ","
    return f"{', '.join(before)}{comma} and {last}"


def _given_name_first(name: str) -> str:
    family, _, given = name.partition(",")
    return f"{given.strip()} {family.strip()}".strip()


def _ended(part: str) -> SafeString:
    """The part as HTML, with a full stop unless it ends in a mark of its own."""
    text = conditional_escape(part)
    return text if _last_mark(text) in ".?!" else format_html("{}.", text)


def _last_mark(html: str) -> str:
    """The last character that is read, behind whatever tags and quotation marks close after it."""
    for closing in ("</a>", "</i>", "”"):
        html = html.removesuffix(closing)
    return html[-1:]


def _sorted_by(source: Source) -> tuple[str, str, str]:
    """By the letters alone: É stands by E. Works of one author by date."""
    return folded(source.authors or _without_article(source.title)), source.date, folded(source.title)


def _without_article(words: str) -> str:
    for article in ("A ", "An ", "The "):
        if words.startswith(article):
            return words.removeprefix(article)
    return words
