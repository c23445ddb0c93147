from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q

from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.models import KeyedModel, WorkroomQuerySet


class RelationQuerySet(WorkroomQuerySet):
    def of(self, reference: ReferenceGarment) -> "RelationQuerySet":
        """Relations that the garment stands at either end of."""
        at_an_end = Q(reference=reference) | Q(other=reference)
        return self.filter(at_an_end).select_related("reference", "other")

    def stating(self, kind: str, *, reference: int, other: int) -> "RelationQuerySet":
        """Those that say this already, from either end where it reads the same from both."""
        ends = Q(reference=reference, other=other)
        if kind not in self.model.FROM_OTHER:
            ends |= Q(reference=other, other=reference)
        return self.filter(ends, kind=kind)


class Relation(KeyedModel):
    """How a garment stands to another: read from `reference` to `other`, and shown on the pages of both."""

    class Kind(models.TextChoices):
        SAME_GARMENT = "same garment", "is the same garment, in another source, as"
        WORN_WITH = "worn with", "was worn with"
        VARIANT_OF = "variant of", "is a variant of"
        SAME_CUT = "same cut", "has the same cut as"

    # How it reads from the other end, where that differs.
    FROM_OTHER = {Kind.VARIANT_OF: "has as a variant"}

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="relations")
    kind = models.CharField("how", max_length=20, choices=Kind, default=Kind.WORN_WITH)
    other = models.ForeignKey(
        ReferenceGarment, on_delete=models.CASCADE, related_name="relations_to_it", verbose_name="garment"
    )
    note = models.CharField(
        "how that is known", max_length=200, blank=True, help_text="A label, a portrait, one buyer …"
    )

    objects = RelationQuerySet.as_manager()

    class Meta:
        ordering = ("kind", "pk")
        constraints = (
            models.UniqueConstraint(fields=["reference", "kind", "other"], name="a_relation_once"),
            models.CheckConstraint(condition=~Q(reference=models.F("other")), name="related_to_another"),
        )

    def __str__(self) -> str:
        return f"{self.reference} {self.get_kind_display()} {self.other}"

    def clean(self) -> None:
        """Raises ValidationError where it is said already, from either end."""
        said = Relation.objects.stating(self.kind, reference=self.reference_id, other=self.other_id)
        if said.exclude(pk=self.pk).exists():
            raise ValidationError("That is said already, here or on the other garment’s page.")

    def seen_from(self, reference: ReferenceGarment) -> tuple[str, ReferenceGarment]:
        """How it reads on the page of `reference`, and the garment that it leads to."""
        if reference.pk == self.reference_id:
            return self.get_kind_display(), self.other
        return self.FROM_OTHER.get(self.kind, self.get_kind_display()), self.reference
