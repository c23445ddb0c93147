"""Sources that come from another program, added where they are not there already."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from uuid import UUID, uuid4

from django.db import transaction

from catalogue.sources.exchange.cited import Cited, doi_of, isbn_of
from catalogue.sources.kinds import SOURCE
from catalogue.sources.models import Source
from catalogue.workroom.index.filing import file_sources
from catalogue.workroom.models import Workroom
from catalogue.workroom.reader.columns import columns_of


@dataclass(slots=True, kw_only=True)
class TakenSources:
    """`new` are not saved where it was only tried. `left_out`: what each said besides."""

    new: list[Source] = field(default_factory=list)
    there: list[Source] = field(default_factory=list)
    left_out: list[tuple[Source, tuple[str, ...]]] = field(default_factory=list)


@transaction.atomic
def take_sources(*, workroom: Workroom, cited: Iterable[Cited], only_try: bool) -> TakenSources:
    """Add each source that is not there by its key, its DOI or ISBN, or by kind, title, authors and date."""
    taken, known = TakenSources(), {}
    for source in Source.objects.of_workroom(workroom):
        known |= dict.fromkeys(_names(source), source)
    for one in cited:
        key = _key(one.key)
        source = Source(workroom=workroom, **columns_of(SOURCE, {**one.columns, "key": key or uuid4()}))
        there = next((known[name] for name in _names(source) if name in known), None)
        if there:
            taken.there.append(there)
            continue
        known |= dict.fromkeys(_names(source), source)
        taken.new.append(source)
        if one.left_out:
            taken.left_out.append((source, one.left_out))
    if not only_try:
        for source in taken.new:
            source.save()
        file_sources(source.pk for source in taken.new)
    return taken


def _key(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


def _names(source: Source) -> list[object]:
    """All that a source may be known again by."""
    code = doi_of(source.identifier).lower() or isbn_of(source.identifier).replace("-", "")
    words = tuple(" ".join(text.casefold().split()) for text in (source.title, source.authors, source.date))
    return [source.key, (source.kind, *words), *([("code", code)] if code else [])]
