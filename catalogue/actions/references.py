from collections.abc import Iterable

from django.db import transaction

from catalogue.models.garment import ReferenceGarment
from catalogue.models.tag import Tag
from catalogue.workroom.index.filing import file_references


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
