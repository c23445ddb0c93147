"""What a workroom holds of sources."""

from collections.abc import Iterator

from django.urls import reverse

from catalogue.sources.models import Citation, Source
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.models import User
from catalogue.workroom.showing import counted
from catalogue.workroom.uses import Use

register(Kind(model=Source, name="sources"), Kind(model=Citation, part_of="reference"))


def _citations_of(source: Source) -> Notice | None:
    citations = source.citations.select_related("reference")
    return citations and Notice(
        heading="It is cited, so it stays",
        sentence=(
            "Facts about these garments rest on it. "
            "Take the citations off their pages first, then the source can go."
        ),
        rows=[
            Use(
                label=f"Sources of {one.reference}" + (f", {one.pages}" if one.pages else ""),
                url=reverse("reference-citations", args=[one.reference_id]),
            )
            for one in citations
        ],
        is_care=True,
    )


def _stay_without(source: Source, user: User) -> Iterator[str]:
    counts = {named.model: named.count() for named in (source.plates, source.photos)}
    if staying := ", ".join(counted(model, count) for model, count in counts.items() if count):
        yield f"These name it, and stay without a source: {staying}."


register_deletions(
    Deletion(
        model=Source,
        name="“{row}”",
        way=lambda source: [("Sources", "source-list")],
        has_page=True,
        tells=_stay_without,
        obstacle=_citations_of,
    ),
)
