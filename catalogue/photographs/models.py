from pathlib import Path

from django.conf import settings
from django.db import models
from django.urls import reverse

from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.models import KeyedModel


def photo_folder() -> Path:
    """Where the pictures lie: no address leads there, the view `photo-file` reads from it."""
    return Path(settings.DATA_DIR) / "files" / "photos"


class Photo(KeyedModel):
    """A picture of a reference garment. Only copies drawn from it are served, not the file that was sent."""

    class View(models.TextChoices):
        FRONT = "front", "front"
        BACK = "back", "back"
        SIDE = "side", "side"
        INSIDE = "inside", "inside"
        DETAIL = "detail", "detail"
        PLATE = "plate", "plate or diagram"

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="photos")
    stem = models.CharField(max_length=64, unique=True, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)
    view = models.CharField(max_length=10, choices=View, default=View.FRONT)
    caption = models.CharField(
        max_length=200, blank=True, help_text="What it shows. Read aloud to those who cannot see it."
    )
    credit = models.CharField(max_length=200, blank=True)
    rights = models.CharField(max_length=200, blank=True)
    source = models.ForeignKey(
        Source, null=True, blank=True, on_delete=models.SET_NULL, related_name="photos"
    )
    order = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("order", "pk")

    def __str__(self) -> str:
        return self.caption or f"{self.reference}, {self.get_view_display()}"

    def address(self, size: int) -> str:
        return reverse("photo-file", args=[self.pk, size])

    def best_file(self) -> Path | None:
        """The file as it was sent, which has no address; without it the largest copy; None without either."""
        candidates = (photo_folder() / "originals" / self.stem, self.file(2000))
        return next((path for path in candidates if path.is_file()), None)

    def file(self, size: int) -> Path:
        """The copy whose long edge is `size` pixels, one of `catalogue.photographs.imaging.SIZES`."""
        return photo_folder() / f"{self.stem}-{size}.jpg"

    def forget_files(self) -> None:
        for file in (*photo_folder().glob(f"{self.stem}-*.jpg"), photo_folder() / "originals" / self.stem):
            file.unlink(missing_ok=True)
