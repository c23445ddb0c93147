from django.db import models

from catalogue.lengths.models import LengthField, TypedText
from catalogue.models.piece import Piece
from catalogue.models.plate import Plate
from catalogue.workroom.models import WorkroomModel


class Seam(WorkroomModel):
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
    length_a_um = LengthField("edge length on the page", null=True, blank=True)
    length_a_text = TypedText()
    length_b_um = LengthField("its edge length on the page", null=True, blank=True)
    length_b_text = TypedText()
    how = models.CharField("how it is sewn", max_length=160, blank=True)
    evidence = models.CharField("how it is known", max_length=10, choices=Evidence, default=Evidence.UNKNOWN)
    is_eased = models.BooleanField("one edge is eased or gathered on to the other", default=False)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.piece_a} {self.edge_a} to {self.piece_b} {self.edge_b}"
