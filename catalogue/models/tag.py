from django.db import models

from catalogue.models.workroom import Workroom, WorkroomModel


class Tag(WorkroomModel):
    """A word of the workroom's own that it puts to garments: “loan”, “to be drawn”, “good stripes”."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="tags")
    name = models.CharField(max_length=60)

    class Meta:
        ordering = ("name", "pk")
        constraints = (models.UniqueConstraint(fields=["workroom", "name"], name="one_tag_of_a_name"),)

    def __str__(self) -> str:
        return self.name
