"""Sources written as BibTeX in UTF-8, with only TeX's own marks spelled out.

The library's encoder would change ű, Greek capitals and ⅛.
"""

import re
from collections.abc import Iterable

import bibtexparser
from bibtexparser.model import Entry, Field

from catalogue.sources.exchange.bibtex.entries import ENTRIES, TEXTS, is_as_it_is
from catalogue.sources.exchange.cited_source import codes_of, people_of
from catalogue.sources.models import Source, free_key, readable_key

_Kind = Source.Kind
_TEX = str.maketrans(
    {mark: f"\\{mark}" for mark in "&%$#_"}
    # BibTeX counts braces, those with a backslash before them too.
    | {"{": r"\lbrace{}", "}": r"\rbrace{}", "\\": r"\textbackslash{}"}
    | {"~": r"\textasciitilde{}", "^": r"\textasciicircum{}"}
)
# Between two signs that TeX would set as one: a dash, a quotation mark, a mark turned over.
_TWO_AS_ONE = re.compile(r"(?<=-)(?=-)|(?<=')(?=')|(?<=`)(?=`)|(?<=[!?])(?=`)")


def write_bibtex(sources: Iterable[Source]) -> str:
    """In UTF-8: letters of all alphabets stand as they are, and only TeX's own marks are spelled out."""
    library, keys = bibtexparser.Library(), set[str]()
    for source in sources:
        key = free_key(source.cite_key or readable_key(source), keys)
        keys.add(key)
        library.add(_entry(source, key))
    return bibtexparser.write_string(library)


def _entry(source: Source, key: str) -> Entry:
    kind, word = ENTRIES[source.kind]
    said = {"author": _names(source.authors), "editor": _names(source.editors)}
    texts = {name: getattr(source, column) for name, column in TEXTS.items()}
    texts["journal" if source.kind == _Kind.ARTICLE else "booktitle"] = source.container
    texts["year" if re.fullmatch(r"\d{4}", source.date) else "date"] = source.date
    texts["type"] = word
    codes = codes_of(source.identifier)
    texts["identifier"] = "; ".join([*codes.dois[1:], *codes.others])
    said |= {name: _spelled(name, text) for name, text in texts.items()}
    # Two hyphens make the dash between two pages.
    said["pages"] = re.sub(r"\s*[–-]+\s*", "--", source.pages.translate(_TEX))
    said |= {"url": source.url.translate({ord("{"): "%7B", ord("}"): "%7D"})}
    said |= {"doi": codes.dois[0] if codes.dois else "", "isbn": ", ".join(codes.isbns)}
    said["urldate"] = source.accessed_on.isoformat() if source.accessed_on else ""
    return Entry(kind, key, [Field(name, text) for name, text in said.items() if text])


def _spelled(name: str, text: str) -> str:
    text = text if name == "note" else " ".join(text.split())
    return text if is_as_it_is(name, text) else _TWO_AS_ONE.sub("{}", text.translate(_TEX))


def _names(people: str) -> str:
    """A house, or a name that is not parted, in braces."""
    names = [(one.given, _spelled("", one.family)) for one in people_of(people)]
    return " and ".join(
        f"{{{family}}}" if given is None else f"{family}, {_spelled('', given)}" for given, family in names
    )
