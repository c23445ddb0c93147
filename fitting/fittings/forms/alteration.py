"""What is done about an observation, how far it has to go, and the inlay of a garment once it is cut."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.lengths import format_length, to_um
from catalogue.lengths.forms import LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from catalogue.workroom.forms.as_of import MOST_ROWS
from catalogue.workroom.models import User
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Observation
from fitting.outfits.models.garment import Garment

Place, Stage, Deed = AlterationPart.Place, Garment.Stage, Alteration.Deed
# What there is to alter once a garment is so far.
_BEFORE_CLOTH: Sequence[str] = (Place.PAPER, Place.TOILE)
_IN_CLOTH: Sequence[str] = (Place.PAPER, Place.LINING, Place.OUTER)
CLOTH_STAGES = (Stage.CUT, Stage.SEWN, Stage.FINISHED)
# Cut edges at a seam, both sides of the body counted; a level has no edge of its own.
EDGES_AT = {
    "side seam": 4,
    "centre front": 2,
    "centre back": 2,
    "shoulder": 4,
    "armhole": 2,
    "sleeve head": 2,
    "upper arm": 4,
    "elbow": 4,
    "wrist": 4,
    "neck": 1,
    "hem": 1,
}
# An amount along the body is the same at every edge; one round it is shared.
ROUND_THE_BODY = (Observation.Remark.LET_OUT, Observation.Remark.TAKE_IN)


class AlterationForm(LengthsInUnit, forms.ModelForm):
    parts = forms.MultipleChoiceField(
        choices=Place.choices,
        widget=forms.CheckboxSelectMultiple,
        label="Has to reach",
        help_text="Each is ticked off as it is done; it stays open until a later fitting confirms it.",
    )

    class Meta:
        model = Alteration
        fields = ("what", "piece", "edge", "edges", "amount_um", "parts", "note")
        widgets = {"edge": forms.TextInput(attrs={"list": "edges", "size": 20})}

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        super().__init__(*args, user=user, **kwargs)
        garment = self.instance.garment
        pieces = Piece.objects.filter(plate=garment.plate_id) if garment.plate_id else Piece.objects.none()
        self.fields["piece"].queryset = pieces
        self.fields["piece"].empty_label = "no one piece"
        if self.instance.pk:
            self.initial["parts"] = [part.part for part in self.instance.parts.all()]
        else:
            self.initial |= proposed(garment, self.instance.observation, user)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        has_amount = cleaned.get("amount_um") is not None or "amount_um" in self.errors
        if cleaned.get("what") not in (Deed.RESHAPE, Deed.RECUT) and not has_amount:
            self.add_error("amount_um", "Say how much at each edge.")
        return cleaned


def proposed(garment: Garment, observation: Observation | None, user: User) -> dict[str, object]:
    """First values: what was seen, shared over the edges that may take it."""
    values: dict[str, object] = {
        "parts": list(_IN_CLOTH if garment.stage in CLOTH_STAGES else _BEFORE_CLOTH),
        "edges": garment.edges_that_may_take or 2,
    }
    if observation is None:
        return values
    values["edge"] = observation.place if observation.place in EDGES_AT else ""
    values["edges"] = EDGES_AT.get(observation.place, values["edges"])
    if observation.what in Deed.values:
        values["what"] = observation.what
    if observation.what not in ROUND_THE_BODY:
        values["edges"] = 1
    if observation.amount is not None:
        values["amount_um"] = _each(observation, int(values["edges"]), user)  # type: ignore[call-overload]
    return values


def _each(observation: Observation, edges: int, user: User) -> TypedLength:
    if edges == 1:
        return observation.amount
    mm = observation.amount.exact_mm / edges
    return TypedLength(text=format_length(mm, system=user.system, denominator=32), um=to_um(mm))


def edges_known(garment: Garment) -> list[str]:
    """Names of edges to offer: those with an inlay, those of the plate's seams."""
    seams = garment.plate.seams.all() if garment.plate else ()
    named = [name for seam in seams for name in (seam.edge_a, seam.edge_b) if name]
    return list(dict.fromkeys([*(inlay.edge for inlay in garment.inlays.all()), *named]))


class InlayForm(LengthsInUnit, forms.ModelForm):
    class Meta:
        model = Inlay
        fields = ("edge", "edges", "allowance_um")
        widgets = {"edge": forms.TextInput(attrs={"list": "edges", "size": 18})}


Inlays = forms.inlineformset_factory(Garment, Inlay, form=InlayForm, extra=4, **MOST_ROWS)
