"""A garment kept with its tags; and an own study, which becomes a source that its measures rest on."""

from collections.abc import Iterable
from datetime import date

from django.db import transaction

from catalogue.lengths.models import TypedLength
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.tag import Tag
from catalogue.sources.models import Citation, Source
from catalogue.workroom.index.filing import file_references, file_sources

WHAT_IT_SAYS = "Looked at: condition, cloth and stitches; measured without tension."


@transaction.atomic
def keep_reference(*, reference: ReferenceGarment, tags: Iterable[str]) -> ReferenceGarment:
    """Save the garment with these tags and no others; a tag that no garment bears any more is forgotten."""
    reference.save()
    mine = Tag.objects.filter(workroom=reference.workroom)
    held = {tag.name.casefold(): tag for tag in mine}
    reference.tags.set(
        held.get(name.casefold()) or Tag.objects.create(workroom=reference.workroom, name=name)
        for name in tags
    )
    mine.filter(references=None).delete()
    file_references({reference.pk})
    return reference


@transaction.atomic
def keep_study(
    *,
    reference: ReferenceGarment,
    seen_on: date,
    seen_by: str,
    notes: str,
    measures: Iterable[tuple[str, TypedLength]],
) -> Source:
    """Return the source, which the garment cites from now on."""
    source = Source.objects.create(
        workroom=reference.workroom,
        kind=Source.Kind.OWN_STUDY,
        title=f"Own study of {reference}"[:300],
        authors=seen_by,
        date=seen_on.isoformat(),
        publisher=reference.holder,
        identifier=reference.accession,
        notes=notes,
    )
    Citation.objects.create(reference=reference, source=source, fact=WHAT_IT_SAYS)
    PublishedMeasure.objects.bulk_create(
        PublishedMeasure(reference=reference, line=line, value=value, source=source)
        for line, value in measures
    )
    file_sources([source.pk])
    file_references([reference.pk])
    return source
