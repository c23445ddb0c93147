"""Sources as BibTeX. A well-kept library reads and writes braces and backslashes; here is what they mean.

Written in UTF-8, with only TeX's own marks spelled out: the library's encoder changes ű, Greek capitals and
⅛.
"""

import re
from collections.abc import Iterable, Mapping

import bibtexparser
from bibtexparser.exceptions import ParsingException
from bibtexparser.middlewares import LatexDecodingMiddleware
from bibtexparser.middlewares.names import (
    InvalidNameError,
    parse_single_name_into_parts,
    split_multiple_persons_names,
)
from bibtexparser.model import Entry, Field

from catalogue.lengths.calculation.errors import Fault
from catalogue.sources.exchange.cited import Person, ReadFile, doi_of, isbn_of, people_of, text_of
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
_TEX = str.maketrans(
    {mark: f"\\{mark}" for mark in "&%$#_"}
    # BibTeX counts braces, those with a backslash before them too.
    | {"{": r"\lbrace{}", "}": r"\rbrace{}", "\\": r"\textbackslash{}"}
    | {"~": r"\textasciitilde{}", "^": r"\textasciicircum{}"}
)
# Between two signs that TeX would set as one: a dash, a quotation mark, a mark turned over.
_TWO_AS_ONE = re.compile(r"(?<=-)(?=-)|(?<=')(?=')|(?<=`)(?=`)|(?<=[!?])(?=`)")
_DATE_IN_THE_FORMAT = re.compile(r"(?!.*--)[0-9X~?%/.-]+")


def write_bibtex(sources: Iterable[Source]) -> str:
    """In UTF-8: letters of all alphabets stand as they are, and only TeX's own marks are spelled out."""
    return bibtexparser.write_string(bibtexparser.Library([_entry(source) for source in sources]))


def _entry(source: Source) -> Entry:
    kind, word = ENTRIES[source.kind]
    said = {"author": _names(source.authors), "editor": _names(source.editors)}
    texts = {name: getattr(source, column) for name, column in TEXTS.items()}
    texts["journal" if source.kind == _Kind.ARTICLE else "booktitle"] = source.container
    texts["year" if re.fullmatch(r"\d{4}", source.date) else "date"] = source.date
    texts["type"] = word
    doi, isbn = doi_of(source.identifier), isbn_of(source.identifier)
    texts["identifier"] = "" if doi or isbn else source.identifier
    said |= {name: _spelled(name, text) for name, text in texts.items()}
    # Two hyphens make the dash between two pages.
    said["pages"] = re.sub(r"\s*[–-]+\s*", "--", source.pages.translate(_TEX))
    said |= {"url": source.url.translate({ord("{"): "%7B", ord("}"): "%7D"}), "doi": doi, "isbn": isbn}
    said["urldate"] = source.accessed_on.isoformat() if source.accessed_on else ""
    return Entry(kind, f"s{source.key.hex}", [Field(name, text) for name, text in said.items() if text])


def _is_as_it_is(name: str, text: str) -> bool:
    return name in AS_THEY_ARE or (name in DATES and bool(_DATE_IN_THE_FORMAT.fullmatch(text)))


def _spelled(name: str, text: str) -> str:
    text = text if name == "note" else " ".join(text.split())
    return text if _is_as_it_is(name, text) else _TWO_AS_ONE.sub("{}", text.translate(_TEX))


def _names(people: str) -> str:
    """A house, or a name that is not parted, in braces."""
    names = [(one.given, _spelled("", one.family)) for one in people_of(people)]
    return " and ".join(
        f"{{{family}}}" if given is None else f"{family}, {_spelled('', given)}" for given, family in names
    )


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
    raw = {one.key.lower(): str(one.value) for one in written.fields}
    left |= {name: text for name, text in raw.items() if _is_as_it_is(name, text)}
    if address := re.fullmatch(r"\\url\{(.*)\}", raw.get("howpublished", "").strip()):
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


def _text(name: str, text: str) -> str:
    """On one line, as its column is; only notes keep their lines."""
    # What the library makes of a circumflex that stands alone.
    text = text.replace("ˆ", "^")
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
    in_figures = int(month) if month.isdecimal() and len(month) < 3 else 0
    number = MONTHS.index(month[:3]) + 1 if month[:3] in MONTHS else in_figures
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
