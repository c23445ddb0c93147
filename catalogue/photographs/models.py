import math
from typing import ClassVar

from django.db import models
from django.urls import reverse

from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.files import is_there
from catalogue.workroom.models import KeyedModel, WithFiles

SIZES = (320, 960, 2000)  # long edge in pixels: in a list, on a page, looked at closely or printed
# A photograph looked at closely comes in square parts of this side.
PART_PX = 1600


class WithCopies(WithFiles, models.Model):
    """What a photograph of any kind has: copies drawn from it, which alone are served."""

    FOLDER: ClassVar[str]

    stem = models.CharField(max_length=64, unique=True, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)

    class Meta:
        abstract = True

    def file_name(self, size: int) -> str:
        return f"{self.stem}-{size}.jpg"

    def file(self, size: int) -> str:
        """The copy whose long edge is `size` pixels, one of SIZES."""
        return f"{self.FOLDER}{self.file_name(size)}"

    def files(self) -> list[str]:
        return [self.file(size) for size in SIZES]

    def best_file(self) -> str | None:
        """The largest copy; None where it is missing."""
        return next(filter(is_there, [self.file(max(SIZES))]), None)


class Photo(WithCopies, KeyedModel):
    """A picture of a reference garment. Only copies drawn from it are served, not the file that was sent."""

    class View(models.TextChoices):
        FRONT = "front", "front"
        BACK = "back", "back"
        SIDE = "side", "side"
        INSIDE = "inside", "inside"
        DETAIL = "detail", "detail"
        PLATE = "plate", "plate or diagram"

    FOLDER = "photos/"
    workroom_path = "reference__workroom"

    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="photos")
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

    @property
    def original(self) -> str:
        """The file as it was sent, which has no address."""
        return f"{self.FOLDER}originals/{self.stem}"

    def best_file(self) -> str | None:
        """The file as it was sent; without it the largest copy; None without either."""
        return self.original if is_there(self.original) else super().best_file()

    def parts(self) -> tuple[int, int]:
        """Into how many columns and rows it is cut to be looked at closely: 1 and 1 where no part shows
        more.
        """
        return math.ceil(self.width / PART_PX), math.ceil(self.height / PART_PX)

    def part(self, column: int, row: int) -> str:
        return f"{self.FOLDER}{self.stem}-part-{column}-{row}.jpg"

    def files(self) -> list[str]:
        columns, rows = self.parts()
        parts = [self.part(column, row) for column in range(columns) for row in range(rows)]
        return [self.original, *super().files(), *parts]
