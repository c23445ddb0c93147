from typing import Any

from django import forms

from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.relation import Relation
from catalogue.sources.calculation.dates import describe
from catalogue.workroom.index.engine import references_with
from catalogue.workroom.index.words import read_words
from catalogue.workroom.models import WorkroomQuerySet

MOST_OFFERED = 20
# The one relation that reads another way from its other end.
HAS_VARIANT = "has variant"


class RelationFindForm(forms.Form):
    """Narrows which garments are offered."""

    text = forms.CharField(label="Find a garment", required=False, max_length=200)


class RelationForm(forms.Form):
    kind = forms.ChoiceField(
        label="This garment",
        choices=[*Relation.Kind.choices, (HAS_VARIANT, Relation.FROM_OTHER[Relation.Kind.VARIANT_OF])],
    )
    other = forms.ModelChoiceField(
        label="Which garment",
        queryset=ReferenceGarment.objects.none(),
        widget=forms.RadioSelect,
        empty_label=None,
    )
    note = forms.CharField(
        label="How that is known",
        required=False,
        max_length=Relation._meta.get_field("note").max_length,
        help_text="A label, a portrait, one buyer …",
    )

    def __init__(self, *args: Any, reference: ReferenceGarment, text: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.reference = reference
        others = offered(reference, text)
        self.fields["other"].queryset = others
        self.fields["other"].choices = [(one.pk, _label(one)) for one in others[:MOST_OFFERED]]
        self.is_cut = others[MOST_OFFERED:].exists()

    def clean(self) -> dict[str, Any]:
        """Builds `relation`, from the end that it is read from."""
        cleaned = super().clean()
        if self.errors:
            return cleaned
        ends = (self.reference, cleaned["other"])
        if cleaned["kind"] == HAS_VARIANT:
            ends = ends[::-1]
        kind = Relation.Kind.VARIANT_OF if cleaned["kind"] == HAS_VARIANT else cleaned["kind"]
        self.relation = Relation(kind=kind, reference=ends[0], other=ends[1], note=cleaned["note"])
        self.relation.clean()
        return cleaned


def offered(reference: ReferenceGarment, text: str) -> WorkroomQuerySet:
    """The workroom's other garments, narrowed to those that hold the words."""
    others = ReferenceGarment.objects.of_workroom(reference.workroom).exclude(pk=reference.pk)
    if words := read_words(text):
        others = others.filter(pk__in=references_with(words, others.db))
    return others.order_by("name", "pk")


def _label(reference: ReferenceGarment) -> str:
    date = describe(reference.date_edtf) if reference.date_edtf else "undated"
    return ", ".join(filter(None, (reference.name, date, reference.holder)))
