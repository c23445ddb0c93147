"""What garments and sources are found by: filters kept under a name, cards of words, measures at full size.

Cards and measures are derived: they may be thrown away and are written again.
"""

from typing import ClassVar

from django.db import models
from django.urls import reverse

from catalogue.lengths.models import LengthField
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import LINE_CHOICES, ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.models import Workroom, WorkroomModel


class SavedFilter(WorkroomModel):
    """A way to narrow the list of reference garments that the workroom gave a name. `query`: the address."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="saved_filters")
    name = models.CharField(max_length=80)
    query = models.CharField(max_length=1000, editable=False)

    class Meta:
        ordering = ("name", "pk")
        constraints = (models.UniqueConstraint(fields=["workroom", "name"], name="one_filter_of_a_name"),)

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return f"{reverse('reference-list')}?{self.query}"


class IndexCard(models.Model):
    """All the words of one garment or one source. `text` is as written, for snippets; the rest is folded.

    Folded: small letters without accents, words parted and led by one space. Each database keeps a full-text
    index over the folded columns by itself (see the migration), so that to write a card is to index it.
    """

    is_derived: ClassVar[bool] = True

    reference = models.OneToOneField(
        ReferenceGarment, null=True, blank=True, on_delete=models.CASCADE, related_name="index_card"
    )
    source = models.OneToOneField(
        Source, null=True, blank=True, on_delete=models.CASCADE, related_name="index_card"
    )
    name = models.TextField(blank=True)
    place = models.TextField(blank=True)
    materials = models.TextField(blank=True)
    technique = models.TextField(blank=True)
    fastening = models.TextField(blank=True)
    facts = models.TextField(blank=True)
    notes = models.TextField(blank=True)
    around = models.TextField(blank=True)
    text = models.TextField(blank=True)

    class Meta:
        # What a card is of, without a look at all the words on it: the search names this index.
        indexes = (models.Index(fields=["id", "reference", "source"], name="what_cards_are_of"),)

    def __str__(self) -> str:
        return f"card of {self.reference or self.source}"


class FullSizeMeasure(models.Model):
    """A girth or length that a plate comes to: while its allowance is not known, least and most."""

    is_derived: ClassVar[bool] = True

    plate = models.ForeignKey(Plate, on_delete=models.CASCADE, related_name="full_size_measures")
    reference = models.ForeignKey(
        ReferenceGarment, on_delete=models.CASCADE, related_name="full_size_measures"
    )
    line = models.CharField(max_length=40, choices=LINE_CHOICES)
    least_um = LengthField()
    most_um = LengthField()

    class Meta:
        ordering = ("pk",)
        indexes = (
            models.Index(fields=["line", "least_um", "most_um", "reference"], name="measure_at_a_line"),
        )

    def __str__(self) -> str:
        return f"{self.line} of {self.plate}"
