"""What an archive says of photographs. A plate may show one of them: they stand before the plates."""

from catalogue.photographs.models import Photo
from catalogue.references.kinds import REFERENCE
from catalogue.workroom.kinds import Kind

PHOTO = Kind(
    model=Photo,
    columns=("view", "caption", "credit", "rights", "order"),
    points_to={"source": "sources"},
    files="photographs/",
)

REFERENCE.add_part("photos", PHOTO)
