"""A source as other programs cite it, between its row and their formats: persons, days, identifiers."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from catalogue.lengths.calculation.errors import Fault
from catalogue.sources.models import Source
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.reader.faulty_value import FaultyValue
from catalogue.workroom.reader.values import missing_value, read_value

_DOI = re.compile(r"(?:https?://(?:dx\.)?doi\.org/|doi:\s*)?(10\.\d{4,9}/\S+)", re.IGNORECASE)
_DIGITS = re.compile(r"[\dX]{10}|\d{13}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """A person by family and given name; or, with `given` None, a house or a name that is not parted."""

    family: str
    given: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CitedSource:
    """A source from somewhere else. `columns`: of Source, checked. `left_out`: what it has no place for."""

    columns: dict[str, Any]
    key: str = ""
    left_out: tuple[str, ...] = ()


MOST_SOURCES = 5_000
TOO_MANY = f"This holds more than {MOST_SOURCES:,} sources: send it in parts."


@dataclass(slots=True)
class SourceFile:
    """What a file of sources came to: all of them, or what is wrong with it."""

    sources: list[CitedSource] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def add(
        self, place: str, columns: dict[str, Any], *, key: str = "", left_out: Iterable[str] = ()
    ) -> None:
        """Check the columns as the database would, and keep the source if all of them will do."""
        held, before = {}, len(self.faults)
        for name, column in KINDS[Source].fields().items():
            try:
                held[name] = read_value(column, columns[name]) if name in columns else missing_value(column)
            except FaultyValue as fault:
                self.faults.append(Fault(f"{place}.{name}", fault.sentence))
        if len(self.faults) == before:
            self.sources.append(CitedSource(columns=held, key=key, left_out=tuple(sorted(left_out))))


def people_of(text: str) -> list[Person]:
    """“Oxley-Tarn, Winifred; Thornby Museum” as two, the second by one name."""
    found = []
    for one in text.split(";"):
        family, comma, given = (part.strip() for part in one.partition(","))
        if family:
            found.append(Person(family=family, given=given if comma else None))
    return found


def text_of(people: Iterable[Person]) -> str:
    names = (
        person.family if person.given is None else f"{person.family}, {person.given}" for person in people
    )
    # A semicolon parts persons, so that none can stand in a name.
    return "; ".join(name.replace(";", ",") for name in names)


def doi_of(identifier: str) -> str:
    """The DOI that an identifier is, without what leads to it; nothing where it is another."""
    found = _DOI.fullmatch(identifier.strip())
    return found[1] if found else ""


def isbn_of(identifier: str) -> str:
    """The ISBN that an identifier is, as printed; nothing where its check digit is another (ISO 2108)."""
    printed = re.sub(r"^ISBN(?:-1[03])?:?\s*", "", identifier.strip(), flags=re.IGNORECASE)
    digits = re.sub(r"[\s-]", "", printed).upper()
    if not _DIGITS.fullmatch(digits):
        return ""
    values = [10 if digit == "X" else int(digit) for digit in digits]
    if len(values) == 10:
        is_whole = (
            sum(weight * value for weight, value in zip(range(10, 0, -1), values, strict=True)) % 11 == 0
        )
        return printed if is_whole and "X" not in digits[:-1] else ""
    is_whole = sum((1, 3)[place % 2] * value for place, value in enumerate(values)) % 10 == 0
    return printed if is_whole else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Codes:
    """What a source is found by: “978-0-306-40615-7; 10.1234/ab; P.61” has one of each."""

    dois: tuple[str, ...]
    isbns: tuple[str, ...]
    others: tuple[str, ...]


def codes_of(identifier: str) -> Codes:
    # A semicolon with a space: within a DOI there may be one without.
    parts = [part.strip() for part in re.split(r";\s", identifier) if part.strip()]
    return Codes(
        dois=tuple(filter(None, map(doi_of, parts))),
        isbns=tuple(filter(None, map(isbn_of, parts))),
        others=tuple(part for part in parts if not doi_of(part) and not isbn_of(part)),
    )


def identifier_of(*parts: str) -> str:
    """The identifier of all codes that are named, each once."""
    return "; ".join(dict.fromkeys(part.strip() for part in parts if part.strip()))


def plain(text: Any) -> str:
    """Text without the few tags that citation programs let stand in a title, and with single spaces."""
    return " ".join(re.sub(r"</?(?:i|b|em|strong|sub|sup|span)(?: [^<>]*)?>", "", str(text)).split())
