"""What was seen, in three taps: which garment, where, and one button for what and how much.

The same form without script, and one row of the paper sheet typed up, say the same thing.
"""

from dataclasses import dataclass
from typing import Any

from django import forms

from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.photographs.forms import PicturesField
from catalogue.workroom.models import User
from fitting.fittings.actions import TypedObservation
from fitting.fittings.models.session import Fitting, Observation
from fitting.outfits.models.garment import Garment

Remark = Observation.Remark

# fmt: off
PLACES = (
    "neck", "shoulder", "armhole", "sleeve head", "across front", "across back", "bust or chest",
    "under bust", "waist", "hip", "side seam", "centre front", "centre back", "upper arm", "elbow", "wrist",
    "length", "hem",
)
# fmt: on
# What a pin takes or gives in one go; common practice, no source.
AMOUNTS = {"in": ("1/8", "1/4", "1/2", "3/4", "1"), "cm": ("0.5", "1", "1.5", "2", "3")}
WITHOUT_AMOUNT = tuple(what for what in Remark if what not in (*Observation.WITH_AMOUNT, Remark.NOTED))


@dataclass(frozen=True, slots=True, kw_only=True)
class Tap:
    """One button: what it sends, what stands on it, and all of it for those who hear the page."""

    value: str
    label: str
    spoken: str


def taps_with_amount(system: str) -> list[tuple[str, list[Tap]]]:
    """A row of buttons for each of what can be done by so much."""
    return [
        (
            what.label,
            [
                Tap(value=f"{what}|{amount} {system}", label=amount, spoken=f"{what.label} {amount} {system}")
                for amount in AMOUNTS[system]
            ],
        )
        for what in Observation.WITH_AMOUNT
    ]


def taps_without_amount() -> list[Tap]:
    return [Tap(value=what.value, label=what.label, spoken=what.label) for what in WITHOUT_AMOUNT]


class ObservationForm(forms.Form):
    """`seen` is a button: "let out|1/4 in", "gapes", or "other" for what was typed beside it."""

    client_key = forms.UUIDField(required=False, widget=forms.HiddenInput)
    garment = forms.ModelChoiceField(
        queryset=Garment.objects.none(), widget=forms.RadioSelect, empty_label=None
    )
    place = forms.ChoiceField(
        required=False, choices=[(place, place) for place in PLACES], widget=forms.RadioSelect
    )
    other_place = forms.CharField(label="Another place", required=False, max_length=60)
    side = forms.ChoiceField(
        label="Side", required=False, choices=Observation.BodySide.choices, widget=forms.RadioSelect
    )
    note = forms.CharField(required=False, widget=forms.Textarea(attrs={"rows": 2}))
    pictures = PicturesField(label="Photographs", required=False)
    other_what = forms.ChoiceField(label="What", required=False, choices=Remark.choices, initial=Remark.NOTED)
    other_amount = LengthFormField(label="How much in all", required=False)
    seen = forms.CharField(required=False)

    def __init__(self, *args: Any, fitting: Fitting, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        garments = fitting.garments.all()
        self.fields["garment"].queryset = garments
        self.fields["other_amount"].unit = user.system
        if len(garments) == 1:
            self.initial.setdefault("garment", garments[0].pk)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        cleaned["place"] = cleaned.get("other_place") or cleaned.get("place") or ""
        if not cleaned["place"]:
            self.add_error("place", "Tap where it was seen.")
        what, _, amount = cleaned.get("seen", "").partition("|")
        if what in ("", "other"):
            what = cleaned.get("other_what") or Remark.NOTED
            length = cleaned.get("other_amount")
        else:
            length = self._length(amount)
        if what not in Remark.values:
            self.add_error("seen", "Tap what was seen.")
        if what in Observation.WITH_AMOUNT and length is None and "other_amount" not in self.errors:
            self.add_error("other_amount", "Say by how much.")
        if what == Remark.NOTED and not cleaned.get("note") and not cleaned.get("pictures"):
            self.add_error("note", "Write what was seen, or take a photograph of it.")
        return cleaned | {"what": what, "length": length}

    def _length(self, text: str) -> TypedLength | None:
        return self.fields["other_amount"].clean(text) if text else None

    def observed(self) -> TypedObservation:
        given = self.cleaned_data
        return TypedObservation(
            garment=given["garment"],
            place=given["place"],
            side=given["side"],
            what=given["what"],
            amount=given["length"],
            note=given["note"],
            client_key=given["client_key"],
            pictures=[picture.prepared for picture in given["pictures"] or ()],
        )


class ObservationRowForm(LengthsInUnit, forms.ModelForm):
    """One observation, typed: a row of the paper sheet, or one that is put right afterwards."""

    class Meta:
        model = Observation
        fields = ("garment", "place", "side", "what", "amount_um", "note")
        widgets = {
            "place": forms.TextInput(attrs={"list": "places", "size": 14}),
            "note": forms.TextInput(attrs={"size": 30}),
        }

    def __init__(self, *args: Any, fitting: Fitting, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["garment"].queryset = fitting.garments.all()
        # A row left as it comes is an empty one: what is chosen already must not count as typed.
        if fitting.garments.count() == 1:
            self.fields["garment"].initial = fitting.garments.get().pk

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        has_amount = cleaned.get("amount_um") is not None or "amount_um" in self.errors
        if cleaned.get("what") in Observation.WITH_AMOUNT and not has_amount:
            self.add_error("amount_um", "Say by how much.")
        return cleaned

    def observed(self) -> TypedObservation:
        given = {name: self.cleaned_data[name] for name in ("garment", "place", "side", "what", "note")}
        return TypedObservation(**given, amount=self.cleaned_data["amount_um"])


class _PaperRows(forms.BaseFormSet):
    def observed(self) -> list[TypedObservation]:
        """The rows that something was typed in, from the top down."""
        return [form.observed() for form in self.forms if form.has_changed()]

    def clean(self) -> None:
        if not any(self.errors) and not any(form.has_changed() for form in self.forms):
            raise forms.ValidationError("Type at least one row.")


PaperRows = forms.formset_factory(
    ObservationRowForm, formset=_PaperRows, extra=8, max_num=60, absolute_max=60
)


class ObservationPhotosForm(forms.Form):
    pictures = PicturesField(label="Photographs")
