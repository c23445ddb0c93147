"""BibTeX of other programs, read as sources."""

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
from bibtexparser.middlewares.parsestack import default_parse_stack
from bibtexparser.model import Block, Entry

from catalogue.lengths.calculation.errors import Fault
from catalogue.sources.exchange.bibtex.entries import ALSO, ENTRIES, KINDS, TEXTS, is_as_it_is
from catalogue.sources.exchange.bibtex.joining import (
    MOST_JOINED,
    JoinedTooLong,
    JoinedValues,
    inherit_fields,
)
from catalogue.sources.exchange.cited_source import (
    MOST_SOURCES,
    TOO_MANY,
    Person,
    SourceFile,
    identifier_of,
    text_of,
)
from catalogue.sources.models import CITE_KEY, Source
from catalogue.workroom.reader.faulty_value import LONGEST_TEXT

_Kind = Source.Kind
# Each is work for the library, however short the text is: five thousand sources have half of them.
MARKS, MOST_MARKS, MOST_BLOCKS = "\\{}$=", 300_000, 4 * MOST_SOURCES
LONGEST_ENTRY = 2 * LONGEST_TEXT
TOO_LONG = f"Comes to more than {MOST_JOINED:,} characters when its texts are put together."


def read_bibtex(text: str) -> SourceFile:
    read = SourceFile()
    if text.count("@") > MOST_BLOCKS or sum(map(text.count, MARKS)) > MOST_MARKS:
        return SourceFile(faults=[Fault("file", TOO_MANY)])
    try:
        library = bibtexparser.parse_string(text, parse_stack=[JoinedValues(), *default_parse_stack()])
    except JoinedTooLong:
        return SourceFile(faults=[Fault("file", TOO_LONG)])
    except (ParsingException, ValueError, IndexError, RecursionError):
        return SourceFile(faults=[Fault("file", "This is not BibTeX.")])
    for block in library.failed_blocks:
        why = getattr(block.error, "abort_reason", "") or str(block.error) or "Cannot be read."
        # What follows is for who writes programs with the library.
        read.faults.append(Fault(_line(block), " ".join(why.partition(" Note:")[0].split())))
    inherit_fields(library)
    entries = library.entries
    if len(entries) > MOST_SOURCES or sum(map(_length, entries)) > MOST_JOINED:
        return SourceFile(faults=[Fault("file", TOO_MANY if len(entries) > MOST_SOURCES else TOO_LONG)])
    # One entry at a time: what the library makes of TeX takes 300 times as much memory as the text does.
    for written in entries:
        plain, braced = _without_tex(written, keeps_braces=False), _without_tex(written, keeps_braces=True)
        if plain and braced:
            _read_entry(read, written, plain, braced)
        else:
            read.faults.append(Fault(_line(written), "Its TeX is too long, or nested too deeply."))
    if not entries and not read.faults:
        read.faults.append(Fault("file", "This holds no entry."))
    return read


def _line(block: Block) -> str:
    return f"line {(block.start_line or 0) + 1}"


def _length(entry: Entry) -> int:
    return sum(len(str(one.value)) for one in entry.fields)


def _without_tex(entry: Entry, *, keeps_braces: bool) -> Entry | None:
    """The entry in plain letters; None where that is beyond the library, or any source."""
    if _length(entry) > LONGEST_ENTRY:
        return None
    decoding = LatexDecodingMiddleware(allow_inplace_modification=False, keep_braced_groups=keeps_braces)
    return next(iter(decoding.transform(bibtexparser.Library([entry])).entries), None)


def _read_entry(read: SourceFile, written: Entry, entry: Entry, braced: Entry) -> None:
    left = {ALSO.get(one.key.lower(), one.key.lower()): str(one.value) for one in entry.fields}
    raw = {one.key.lower(): str(one.value) for one in written.fields}
    left |= {name: text for name, text in raw.items() if is_as_it_is(name, text)}
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
    columns["pages"] = re.sub(r" ?-{1,3} ?", "–", " ".join(left.pop("pages", "").split()))
    dated = left.pop("date", "") or "-".join(filter(None, (left.pop("year", ""), _month(left))))
    columns["date"] = _text("date", dated)
    columns["url"] = re.sub(r"^\\url\{(.*)\}$", r"\1", left.pop("url", "")).replace("\\", "")
    if re.fullmatch(r"\d{4}-\d\d-\d\d", day := left.pop("urldate", "")):
        columns["accessed_on"] = day
    columns["identifier"] = identifier_of(
        left.pop("doi", ""), *re.split("[,;]", left.pop("isbn", "")), left.pop("identifier", "")
    )
    # What this program wrote before sources had keys for citing: its own key.
    own = re.fullmatch(r"s([0-9a-f]{32})", entry.key)
    columns["cite_key"] = "" if own or not CITE_KEY.fullmatch(entry.key) else entry.key
    read.add(entry.key, columns, key=own[1] if own else "", left_out=left)


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
    """“jan”, “January” or “1” as 01, “may~3” as 05-03; in other words it stays among what is left out."""
    match = re.fullmatch(r"([a-z]+|\d\d?)\.?(?:[~\s]+(\d\d?))?", left.get("month", "").strip().lower())
    if not match or not left.get("year", "1"):
        return ""
    name, day = match.groups()
    number = MONTHS.index(name[:3]) + 1 if name[:3] in MONTHS else int(name) if name.isdecimal() else 0
    if not 1 <= number <= 12:
        return ""
    del left["month"]
    return f"{number:02}-{int(day):02}" if day else f"{number:02}"


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
