from django.db import models
from django.urls import reverse

from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.models import KeyedModel, WorkroomQuerySet


class QuestionQuerySet(WorkroomQuerySet):
    def unanswered(self) -> "QuestionQuerySet":
        return self.filter(answered_on=None)

    def for_list_page(self) -> "QuestionQuerySet":
        return self.select_related("reference", "source")


class Question(KeyedModel):
    """What is not known about a garment, until somebody finds out: the answer stands with its source."""

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="questions")
    text = models.CharField(
        "question", max_length=500, help_text="Is the lining cut with the outer cloth? Are these hems later?"
    )
    # Names, not accounts: a curator may ask as well, and a question outlives a membership.
    asked_by = models.CharField(max_length=150, blank=True)
    asked_on = models.DateField("asked on")
    answer = models.TextField(blank=True)
    answered_by = models.CharField(max_length=150, blank=True)
    answered_on = models.DateField("answered on", null=True, blank=True)
    source = models.ForeignKey(
        Source, null=True, blank=True, on_delete=models.SET_NULL, related_name="answers"
    )
    pages = models.CharField("page or figure", max_length=60, blank=True)

    objects = QuestionQuerySet.as_manager()

    class Meta:
        ordering = ("asked_on", "pk")

    def __str__(self) -> str:
        return self.text

    def get_absolute_url(self) -> str:
        return f"{reverse('reference-detail', args=[self.reference_id])}#questions"

    @property
    def is_open(self) -> bool:
        return self.answered_on is None
