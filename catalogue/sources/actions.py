"""Sources that come from another program, added where they are not there already."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from uuid import UUID, uuid4

from django.db import transaction

from catalogue.sources.exchange.cited_source import CitedSource
from catalogue.sources.loading import likenesses, proofs_of_sameness
from catalogue.sources.models import Source, free_key, readable_key
from catalogue.workroom.index.filing import file_sources
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.models import Workroom
from catalogue.workroom.reader.columns import columns_of


@dataclass(slots=True, kw_only=True)
class SourceIntake:
    """Sources taken in: `new` (not saved if it was only tried), and what was `left_out` of each.

    `alike`: a new one, another source that may be the same, and why.
    """

    new: list[Source] = field(default_factory=list)
    there: list[Source] = field(default_factory=list)
    left_out: list[tuple[Source, tuple[str, ...]]] = field(default_factory=list)
    alike: list[tuple[Source, Source, str]] = field(default_factory=list)


@transaction.atomic
def take_sources(*, workroom: Workroom, cited: Iterable[CitedSource], only_try: bool) -> SourceIntake:
    """Add each source that is not there by its key, its DOI or ISBN, or by kind, title, authors and date."""
    taken, known, like, keys = SourceIntake(), {}, {}, set()
    for source in Source.objects.of_workroom(workroom):
        keys.add(source.cite_key)
        known |= dict.fromkeys(proofs_of_sameness(source), source)
        like |= dict.fromkeys(likenesses(source), source)
    for one in cited:
        key = _key(one.key)
        source = Source(
            workroom=workroom, **columns_of(KINDS[Source], {**one.columns, "key": str(key or uuid4())})
        )
        there = next((known[proof] for proof in proofs_of_sameness(source) if proof in known), None)
        if there:
            taken.there.append(there)
            continue
        marks = likenesses(source)
        if mark := next((mark for mark in marks if mark in like), None):
            taken.alike.append((source, like[mark], marks[mark]))
        known |= dict.fromkeys(proofs_of_sameness(source), source)
        like |= dict.fromkeys(marks, source)
        source.cite_key = free_key(source.cite_key or readable_key(source), keys)
        keys.add(source.cite_key)
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
