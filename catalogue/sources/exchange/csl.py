"""Sources as CSL-JSON (Citation Style Language 1.0.2: appendix III, item types; appendix IV, variables)."""

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.sources.exchange.cited_source import (
    MOST_SOURCES,
    TOO_MANY,
    Person,
    SourceFile,
    codes_of,
    identifier_of,
    people_of,
    plain,
    text_of,
)
from catalogue.sources.models import CITE_KEY, Source
from catalogue.workroom.reader.faulty_value import unfit
from catalogue.workroom.reader.strict_json import load, oddities

Item = dict[str, Any]
_Kind = Source.Kind
# The type of each kind, and the genre that tells apart what CSL has one type for.
TYPES: Mapping[str, tuple[str, str]] = {
    _Kind.BOOK: ("book", ""),
    _Kind.CHAPTER: ("chapter", ""),
    _Kind.ARTICLE: ("article-journal", ""),
    _Kind.MUSEUM_RECORD: ("document", "museum record"),
    _Kind.TRADE_MANUAL: ("book", "trade manual"),
    _Kind.FASHION_PLATE: ("graphic", "fashion plate"),
    _Kind.PAINTING: ("graphic", "painting"),
    _Kind.WEB_PAGE: ("webpage", ""),
    _Kind.MANUSCRIPT: ("manuscript", ""),
    _Kind.OWN_STUDY: ("document", "own study"),
}
# What the other types come to, where no genre says it.
KINDS: Mapping[str, str] = {
    **dict.fromkeys(("article", "article-magazine", "article-newspaper", "review"), _Kind.ARTICLE),
    **dict.fromkeys(("entry", "entry-dictionary", "entry-encyclopedia", "paper-conference"), _Kind.CHAPTER),
    **dict.fromkeys(("post", "post-weblog"), _Kind.WEB_PAGE),
    **dict.fromkeys(("collection", "document"), _Kind.MUSEUM_RECORD),
    **dict.fromkeys(("figure", "graphic"), _Kind.PAINTING),
    "personal_communication": _Kind.MANUSCRIPT,
}
HELD = {_Kind.MUSEUM_RECORD, _Kind.FASHION_PLATE, _Kind.PAINTING, _Kind.MANUSCRIPT, _Kind.OWN_STUDY}
TEXTS = {
    "title": "title",
    "container-title": "container",
    "volume": "volume",
    "issue": "issue",
    "page": "pages",
    "edition": "edition",
    "URL": "url",
}
PUBLISHED = {"publisher": "publisher", "publisher-place": "place", "number": "identifier"}
IN_AN_ARCHIVE = {"archive": "publisher", "archive-place": "place", "archive_location": "identifier"}


def write_csl(sources: Iterable[Source]) -> str:
    return json.dumps([csl_item(source) for source in sources], ensure_ascii=False, indent=1)


def csl_item(source: Source) -> Item:
    """The source as one item; its `id` is its key, so that it is known again."""
    kind, genre = TYPES[source.kind]
    item: Item = {"id": str(source.key), "type": kind}
    if genre:
        item["genre"] = genre
    texts = {**TEXTS, **(IN_AN_ARCHIVE if source.kind in HELD else PUBLISHED)}
    item |= {name: getattr(source, column) for name, column in texts.items() if getattr(source, column)}
    codes = codes_of(source.identifier)
    number = next(name for name, column in texts.items() if column == "identifier")
    found = {"DOI": "".join(codes.dois[:1]), "ISBN": ", ".join(codes.isbns)}
    found[number] = "; ".join([*codes.dois[1:], *codes.others])
    item |= found | {"citation-key": source.cite_key}
    item = {name: value for name, value in item.items() if value}
    for name, column in (("author", "authors"), ("editor", "editors")):
        if people := people_of(getattr(source, column)):
            item[name] = [_name(person) for person in people]
    if source.date:
        item["issued"] = _date(source.date)
    if day := source.accessed_on:
        item["accessed"] = {"date-parts": [[day.year, day.month, day.day]]}
    if source.notes:
        item["note"] = source.notes
    if source.rights:
        item["custom"] = {"rights": source.rights}
    return item


def read_csl(text: str) -> SourceFile:
    read = SourceFile()
    try:
        items = load(text)
    except Faults as faulty:
        return SourceFile(faults=list(faulty.faults))
    if isinstance(items, dict):
        items = items.get("items", [items])
    if not isinstance(items, list) or not items:
        return SourceFile(faults=[Fault("file", "This holds no list of sources.")])
    if len(items) > MOST_SOURCES:
        return SourceFile(faults=[Fault("file", TOO_MANY)])
    read.faults += oddities(items, "")
    for at, item in enumerate(items):
        if isinstance(item, dict):
            _read_item(read, f"[{at}]", item)
        else:
            read.faults.append(Fault(f"[{at}]", unfit(item, "a table in braces")))
    return read


def _read_item(read: SourceFile, place: str, item: Item) -> None:
    left, before = dict(item), len(read.faults)
    genre, kind = plain(left.pop("genre", "")).lower(), left.pop("type", None)
    if not isinstance(kind, str):
        read.faults.append(Fault(f"{place}.type", "This is missing: say what it is, as “book”."))
        return
    columns: Item = {"kind": _kind(kind, genre)}
    for name, column in {**TEXTS, **PUBLISHED, **IN_AN_ARCHIVE, "note": "notes"}.items():
        value = left.pop(name, "")
        if not isinstance(value, str | int) or isinstance(value, bool):
            read.faults.append(Fault(f"{place}.{name}", unfit(value, "text in quotes")))
        elif str(value).strip():
            columns[column] = str(value) if column in ("notes", "url") else plain(value)
    doi, isbn, key = (_popped(left, name) for name in ("DOI", "ISBN", "citation-key"))
    columns["identifier"] = identifier_of(doi, *re.split("[,;]", isbn), columns.get("identifier", ""))
    columns["cite_key"] = key if CITE_KEY.fullmatch(key) else ""
    for name, column in (("author", "authors"), ("editor", "editors")):
        columns[column] = text_of(_people(left.pop(name, [])))
    columns["date"] = _words(left.get("issued"))
    if columns["date"] or not left.get("issued"):
        left.pop("issued", None)
    if re.fullmatch(r"\d{4}-\d\d-\d\d", day := _words(left.pop("accessed", None))):
        columns["accessed_on"] = day
    custom = left.get("custom")
    if isinstance(custom, dict) and isinstance(custom.get("rights"), str):
        columns["rights"] = left.pop("custom")["rights"]
    key = str(left.pop("id", ""))
    if len(read.faults) == before:
        read.add(place, columns, key=key, left_out=left)


def _popped(left: Item, name: str) -> str:
    """The text of that name, which is no longer among what is left; nothing where it is no text."""
    return left.pop(name).strip() if isinstance(left.get(name), str) else ""


def _kind(kind: str, genre: str) -> str:
    by_type = {(its_type, its_genre): one for one, (its_type, its_genre) in TYPES.items()}
    return by_type.get((kind, genre)) or by_type.get((kind, "")) or KINDS.get(kind, _Kind.BOOK)


def _name(person: Person) -> Item:
    if person.given is None:
        return {"literal": person.family}
    return {"family": person.family, "given": person.given}


def _people(names: Any) -> Iterable[Person]:
    for name in names if isinstance(names, list) else []:
        if not isinstance(name, dict):
            continue
        part = {key: plain(value) for key, value in name.items() if isinstance(value, str)}
        if part.get("literal"):
            yield Person(family=part["literal"].replace(",", ""))
            continue
        particles = (part.get("dropping-particle"), part.get("non-dropping-particle"), part.get("family"))
        family = " ".join(filter(None, particles))
        given = " ".join(filter(None, (part.get("given"), part.get("suffix"))))
        if family or given:
            yield Person(family=family or given, given=given if family and given else None)


def _date(text: str) -> Item:
    """A year, a season, a day, or two years, as numbers; a date in any other words as it is."""
    item: Item
    if season := re.fullmatch(r"(\d{4})-2([1-4])(~?)", text):
        item = {"date-parts": [[int(season[1])]], "season": int(season[2])}
    elif parts := re.fullmatch(r"(\d{4})(?:-(\d\d))?(?:-(\d\d))?(?:~?)", text):
        item = {"date-parts": [[int(part) for part in parts.groups() if part]]}
    elif years := re.fullmatch(r"(\d{4})(~?)/(\d{4})\2", text):
        item = {"date-parts": [[int(years[1])], [int(years[3])]]}
    else:
        return {"literal": text}
    return item | {"circa": True} if text.endswith("~") else item


def _words(date: Any) -> str:
    """The date as this catalogue writes it; nothing where it is not understood."""
    if isinstance(date, str):
        return plain(date)
    if not isinstance(date, dict):
        return ""
    for name in ("literal", "raw"):
        if isinstance(date.get(name), str):
            return plain(date[name])
    ends = []
    for end in date.get("date-parts") if isinstance(date.get("date-parts"), list) else []:
        numbers = [str(part) for part in end if str(part).isdecimal()] if isinstance(end, list) else []
        if numbers:
            ends.append("-".join([numbers[0].zfill(4), *(part.zfill(2) for part in numbers[1:3])]))
    season = str(date.get("season", ""))
    if len(ends) == 1 and len(ends[0]) == 4 and season in {"1", "2", "3", "4"}:
        ends = [f"{ends[0]}-2{season}"]
    return "/".join(end + ("~" if date.get("circa") else "") for end in ends[:2])
