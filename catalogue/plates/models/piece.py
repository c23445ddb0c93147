"""A pattern piece on a plate, a dimension read off it, and a seam that joins two pieces."""

from django.db import models

from catalogue.lengths.models import LengthColumns, LengthField
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import LINE_CHOICES
from catalogue.workroom.models import KeyedModel, WorkroomModel


class Piece(KeyedModel):
    """One pattern piece on a plate."""

    class ClothRole(models.TextChoices):
        OUTER = "outer", "outer"
        LINING = "lining", "lining"
        INTERLINING = "interlining", "interlining"
        FACING = "facing", "facing"

    class Grain(models.TextChoices):
        ALONG = "along", "along the piece"
        ACROSS = "across", "across the piece"
        BIAS = "bias", "on the bias"
        UNKNOWN = "unknown", "not known"

    workroom_path = "plate__reference__workroom"

    plate = models.ForeignKey(Plate, on_delete=models.CASCADE, related_name="pieces")
    order = models.PositiveSmallIntegerField(default=0)
    name = models.CharField(max_length=80)
    cut = models.PositiveSmallIntegerField("times cut", default=2)
    on_fold = models.BooleanField("drawn to a fold", default=False)
    edges = models.PositiveSmallIntegerField(
        "edges with allowance", null=True, blank=True, help_text="Left empty: 2, or 1 when drawn to a fold."
    )
    cloth = models.CharField(max_length=12, choices=ClothRole, default=ClothRole.OUTER)
    grain = models.CharField(max_length=10, choices=Grain, default=Grain.ALONG)
    notes = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ("order", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def by_line(self) -> dict[str, "Reading"]:
        return {reading.line: reading for reading in self.readings.all()}


class Reading(WorkroomModel):
    """One dimension read off a plate, on one piece, at one level or along one length. Lengths on the page."""

    workroom_path = "piece__plate__reference__workroom"

    piece = models.ForeignKey(Piece, on_delete=models.CASCADE, related_name="readings")
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    reading = LengthColumns("reading")
    take_up = LengthColumns("taken up by darts, pleats or tucks", null=True, blank=True)
    crossed_ends = models.PositiveSmallIntegerField("seams crossed at its ends", default=0)
    is_plain = models.BooleanField(
        "plain", default=False, help_text="On a proportional draft: the same for every body, not in parts."
    )
    # Its standard uncertainty, where it was traced; a reading by hand has that of the plate's rule.
    doubt_um = LengthField("doubt", null=True, blank=True, editable=False)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["piece", "line"], name="one_reading_a_line"),)

    def __str__(self) -> str:
        return f"{self.piece}, {self.line}: {self.reading_text}"


class Seam(KeyedModel):
    """Two edges sewn together: how, and how it is known. Edge lengths are as read on the page."""

    class Evidence(models.TextChoices):
        RECORDED = "recorded", "recorded: a source says so"
        INFERRED = "inferred", "inferred from the shapes"
        TRIED = "tried", "tried in miniature"
        UNKNOWN = "unknown", "unknown"

    workroom_path = "plate__reference__workroom"

    plate = models.ForeignKey(Plate, on_delete=models.CASCADE, related_name="seams")
    piece_a = models.ForeignKey(Piece, on_delete=models.CASCADE, related_name="+", verbose_name="piece")
    edge_a = models.CharField("edge", max_length=60, blank=True)
    piece_b = models.ForeignKey(Piece, on_delete=models.CASCADE, related_name="+", verbose_name="sewn to")
    edge_b = models.CharField("its edge", max_length=60, blank=True)
    length_a = LengthColumns("edge length on the page", null=True, blank=True)
    length_b = LengthColumns("its edge length on the page", null=True, blank=True)
    how = models.CharField("how it is sewn", max_length=160, blank=True)
    evidence = models.CharField("how it is known", max_length=10, choices=Evidence, default=Evidence.UNKNOWN)
    is_eased = models.BooleanField("one edge is eased or gathered on to the other", default=False)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.piece_a} {self.edge_a} to {self.piece_b} {self.edge_b}"
