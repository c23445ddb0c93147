"""Which sources are the same, and which look alike though nothing proves it."""

from collections.abc import Iterable, Iterator

from catalogue.sources.exchange.cited_source import codes_of
from catalogue.sources.models import Source
from catalogue.workroom.index.words import fold

_ARTICLES = {"a", "an", "the"}
Mark = tuple[str, ...]


def proofs_of_sameness(source: Source) -> list[object]:
    """What proves a source to be one that is here already: key, code, or kind, title, authors and date."""
    words = (" ".join(text.casefold().split()) for text in (source.title, source.authors, source.date))
    return [source.key, (source.kind, *words), *_codes(source)]


def likenesses(source: Source) -> dict[Mark, str]:
    """What two sources have in common that may be one, each with how it is called."""
    title = " ".join(word for word in fold(source.title) if word not in _ARTICLES)
    family = " ".join(fold(source.authors.split(";")[0].split(",")[0]))
    year = "".join(fold(source.date)[:1])
    holder = " ".join(fold(source.publisher))
    numbers = [" ".join(fold(number)) for number in codes_of(source.identifier).others]
    return {
        **dict.fromkeys(_codes(source), "the same DOI or ISBN"),
        **({("held", holder, number): "the same holder and number" for number in numbers} if holder else {}),
        **({("by", title, family): "the same title and author"} if family else {}),
        **({("in", title, year): "the same title and year"} if year else {}),
    }


def sources_like(source: Source, others: Iterable[Source]) -> Iterator[tuple[Source, str]]:
    """The other sources that may be this one, each with why."""
    marks = likenesses(source)
    for other in others:
        if other.pk != source.pk and (shared := marks.keys() & likenesses(other).keys()):
            yield other, marks[min(shared)]


def _codes(source: Source) -> list[Mark]:
    codes = codes_of(source.identifier)
    isbns = (isbn.replace("-", "").replace(" ", "") for isbn in codes.isbns)
    return [*(("code", doi.lower()) for doi in codes.dois), *(("code", isbn) for isbn in isbns)]
