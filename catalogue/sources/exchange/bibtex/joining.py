"""What BibTeX puts together before it is read: values joined by #, and what a chapter has from its book."""

import re
from collections.abc import Iterator, Mapping

from bibtexparser.library import Library
from bibtexparser.middlewares.middleware import LibraryMiddleware
from bibtexparser.model import Entry, Field

_MARKS = re.compile(r'(?<!\\)[{}"#]')
# The title of a book is where its chapter stands, and never the chapter's own.
_BY_ANOTHER_NAME = {"title": "booktitle", "subtitle": "booksubtitle"}
_NEVER = {"crossref", "note", "annote", "doi", "pages"}


# Each string may be made of others: twenty times two of the one before is a million.
MOST_JOINED = 8_000_000


class JoinedTooLong(ValueError):
    """What is put together comes to more than MOST_JOINED characters."""


class JoinedValues(LibraryMiddleware):
    """`row # " Press"` as one value in braces. A name is that of a string, or stands for itself."""

    def transform(self, library: Library) -> Library:
        strings: dict[str, str] = {}
        length = 0
        for string in library.strings:
            string.value = _joined(string.value, strings, MOST_JOINED - length)
            length += len(string.value)
            strings[string.key.lower()] = string.value
        for entry in library.entries:
            for field in entry.fields:
                field.value = _joined(field.value, strings, MOST_JOINED - length)
                length += len(field.value)
        return library


def _joined(value: str, strings: Mapping[str, str], most: int) -> str:
    parts = list(_parts(value))
    if len(parts) == 1:
        return value
    values = [_bare(strings.get(part.lower(), part)) for part in parts]
    if sum(map(len, values)) > most:
        raise JoinedTooLong
    return "{" + "".join(values) + "}"


def _parts(value: str) -> Iterator[str]:
    """Between the signs that stand in no braces and no quotation marks."""
    start, depth, is_quoted = 0, 0, False
    for mark in _MARKS.finditer(value):
        if mark[0] == "#" and not depth and not is_quoted:
            yield value[start : mark.start()].strip()
            start = mark.end()
        elif mark[0] == '"' and not depth:
            is_quoted = not is_quoted
        elif mark[0] in "{}":
            depth += 1 if mark[0] == "{" else -1
    yield value[start:].strip()


def _bare(part: str) -> str:
    return part[1:-1] if part[:1] + part[-1:] in ('""', "{}") and len(part) > 1 else part


def inherit_fields(library: Library) -> None:
    """Give each entry what it lacks and the entry has that its `crossref` names."""
    by_key = {entry.key.lower(): entry for entry in library.entries}
    for entry in library.entries:
        whole = by_key.get(str(entry.get("crossref", Field("", "")).value).strip().lower())
        if whole is None or whole is entry:
            continue
        own = {field.key.lower() for field in entry.fields}
        for name, value in _given_on(whole):
            if name not in own:
                entry.set_field(Field(name, value))
        del entry["crossref"]


def _given_on(whole: Entry) -> Iterator[tuple[str, str]]:
    given = {field.key.lower(): field.value for field in whole.fields}
    for name, value in given.items():
        if name not in _NEVER and _BY_ANOTHER_NAME.get(name, name) not in given.keys() - {name}:
            yield _BY_ANOTHER_NAME.get(name, name), value
