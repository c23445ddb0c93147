from django.db import models
from django.urls import reverse

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
