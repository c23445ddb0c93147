"""Sources as BibTeX. A well-kept library reads and writes braces and backslashes; here is what they mean."""

import re
from collections.abc import Iterable, Mapping

import bibtexparser
from bibtexparser.exceptions import ParsingException
from bibtexparser.middlewares import LatexDecodingMiddleware, LatexEncodingMiddleware
from bibtexparser.middlewares.names import (
    InvalidNameError,
    parse_single_name_into_parts,
    split_multiple_persons_names,
)
from bibtexparser.model import Entry, Field

from catalogue.exchange.cited import Person, ReadFile, doi_of, isbn_of, people_of, text_of
from catalogue.measuring.errors import Fault
from catalogue.models import Source

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


def write_bibtex(sources: Iterable[Source]) -> str:
    worded, as_they_are = [], {}
    for source in sources:
        entry = _entry(source)
        as_they_are[entry.key] = [one for one in entry.fields if _is_as_it_is(one)]
        entry.fields = [one for one in entry.fields if not _is_as_it_is(one)]
        worded.append(entry)
    encoding = LatexEncodingMiddleware(keep_math=False, enclose_urls=False)
    library = encoding.transform(bibtexparser.Library(worded))
    for entry in library.entries:
        for name in ("author", "editor"):
            if name in entry.fields_dict:
                entry.fields_dict[name].value = _names_in_braces(entry.fields_dict[name].value)
        entry.fields = [*entry.fields, *as_they_are[entry.key]]
    return bibtexparser.write_string(library)


def _is_as_it_is(field: Field) -> bool:
    key = field.key.lower()
    return key in AS_THEY_ARE or (key in DATES and bool(_DATE_IN_THE_FORMAT.fullmatch(str(field.value))))


def _entry(source: Source) -> Entry:
    kind, word = ENTRIES[source.kind]
    said = {"author": _written(people_of(source.authors)), "editor": _written(people_of(source.editors))}
    said |= {name: getattr(source, column) for name, column in TEXTS.items()}
    said["journal" if source.kind == _Kind.ARTICLE else "booktitle"] = source.container
    # Two hyphens make the dash between two pages.
    said["pages"] = re.sub(r"\s*[–-]+\s*", "--", source.pages)
    said["year" if re.fullmatch(r"\d{4}", source.date) else "date"] = source.date
    said |= {"type": word, "url": source.url.translate({ord("{"): "%7B", ord("}"): "%7D"})}
    said["urldate"] = source.accessed_on.isoformat() if source.accessed_on else ""
    code = {"doi": doi_of(source.identifier), "isbn": isbn_of(source.identifier)}
    said |= code if any(code.values()) else {"identifier": source.identifier}
    fields = [
        Field(name, " ".join(text.split()) if name != "note" else text) for name, text in said.items() if text
    ]
    return Entry(kind, f"s{source.key.hex}", fields)


# Marks that no LaTeX writer touches, for braces to stand where they do after the words are written.
_OPEN, _CLOSE = "\ue000", "\ue001"


def _written(people: list[Person]) -> str:
    return " and ".join(
        f"{_OPEN}{one.family}{_CLOSE}" if one.given is None else f"{one.family}, {one.given}"
        for one in people
    )


def _names_in_braces(text: str) -> str:
    return text.replace(_OPEN, "{").replace(_CLOSE, "}")


def read_bibtex(text: str) -> ReadFile:
    read = ReadFile()
    try:
        library = bibtexparser.parse_string(text)
    except (ParsingException, ValueError, IndexError, RecursionError):
        return ReadFile(faults=[Fault("file", "Is not BibTeX.")])
    for block in library.failed_blocks:
        place = f"line {(block.start_line or 0) + 1}"
        why = getattr(block.error, "abort_reason", "") or str(block.error) or "Cannot be read."
        # What follows is for who writes programs with the library.
        read.faults.append(Fault(place, " ".join(why.partition(" Note:")[0].split())))
    texts = LatexDecodingMiddleware(allow_inplace_modification=False, keep_braced_groups=False)
    names = LatexDecodingMiddleware(allow_inplace_modification=False, keep_braced_groups=True)
    entries = (library.entries, texts.transform(library).entries, names.transform(library).entries)
    for written, plain, braced in zip(*entries, strict=True):
        _read_entry(read, written, plain, braced)
    if not library.entries and not read.faults:
        read.faults.append(Fault("file", "Holds no entry."))
    return read


def _read_entry(read: ReadFile, written: Entry, entry: Entry, braced: Entry) -> None:
    left = {ALSO.get(one.key.lower(), one.key.lower()): str(one.value) for one in entry.fields}
    left |= {one.key.lower(): str(one.value) for one in written.fields if _is_as_it_is(one)}
    if address := re.fullmatch(r"\\url\{(.*)\}", _written_as(written, "howpublished")):
        left |= {"url": left.get("url") or address[1], "publisher": ""}
    words = left.pop("type", "").lower()
    columns = {"kind": _kind(entry.entry_type.lower(), words, left)}
    columns |= {column: _text(name, left.pop(name)) for name, column in TEXTS.items() if name in left}
    for name, column in (("author", "authors"), ("editor", "editors")):
        if left.pop(name, ""):
            held = next(str(one.value) for one in braced.fields if one.key.lower() == name)
            columns[column] = text_of(_people(held))
    columns["container"] = _text("journal", left.pop("journal", "") or left.pop("booktitle", ""))
    columns["pages"] = re.sub(r"\s*-{1,3}\s*", "–", left.pop("pages", ""))
    dated = left.pop("date", "") or "-".join(filter(None, (left.pop("year", ""), _month(left))))
    columns["date"] = _text("date", dated)
    columns["url"] = re.sub(r"^\\url\{(.*)\}$", r"\1", left.pop("url", "")).replace("\\", "")
    if re.fullmatch(r"\d{4}-\d\d-\d\d", day := left.pop("urldate", "")):
        columns["accessed_on"] = day
    found = [left.pop(name) for name in ("doi", "isbn", "identifier") if left.get(name)]
    columns["identifier"] = found[0].strip() if found else ""
    key = entry.key.removeprefix("s")
    read.add(entry.key, columns, key=key if re.fullmatch(r"[0-9a-f]{32}", key) else "", left_out=left)


def _written_as(entry: Entry, name: str) -> str:
    return next((str(one.value).strip() for one in entry.fields if one.key.lower() == name), "")


def _text(name: str, text: str) -> str:
    """On one line, as its column is; only notes keep their lines."""
    return text.strip() if name == "note" else " ".join(text.split())


def _kind(entry: str, word: str, said: Mapping[str, str]) -> str:
    by_entry = {pair: kind for kind, pair in ENTRIES.items()}
    if entry == "misc" and not word:
        return _Kind.WEB_PAGE if said.get("url") else _Kind.BOOK
    return by_entry.get((entry, word)) or by_entry.get((entry, "")) or KINDS.get(entry, _Kind.BOOK)


MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def _month(left: dict[str, str]) -> str:
    """“jan”, “January” or “1” as 01; in any other words it stays among what is left out."""
    month = left.get("month", "").strip().lower()
    number = MONTHS.index(month[:3]) + 1 if month[:3] in MONTHS else int(month) if month.isdecimal() else 0
    if not 1 <= number <= 12 or not left.get("year", "1"):
        return ""
    del left["month"]
    return f"{number:02}"


def _people(text: str) -> Iterable[Person]:
    for name in split_multiple_persons_names(text):
        if re.fullmatch(r"\{[^{}]*\}", name.strip()):
            yield Person(family=name.strip()[1:-1].replace(",", ""))
            continue
        try:
            parts = parse_single_name_into_parts(name, strict=False)
        except InvalidNameError:
            yield Person(family=_bare(name).replace(",", ""))
            continue
        family = _bare(" ".join([*parts.von, *parts.last]))
        given = _bare(" ".join([*parts.first, *parts.jr]))
        yield Person(family=family or given, given=given if family and given else None)


def _bare(text: str) -> str:
    return text.replace("{", "").replace("}", "").strip()
