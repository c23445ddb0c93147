from django.db import transaction

from catalogue.actions.photos import forget_files
from catalogue.models import ReferenceGarment


@transaction.atomic
def delete_reference(*, reference: ReferenceGarment) -> None:
    """Delete the garment with its plates, readings, citations and photographs, and the pictures' files."""
    forget_files(reference.photos.values_list("stem", flat=True))
    reference.delete()
