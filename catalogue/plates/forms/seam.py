from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.forms import LengthsInUnit
from catalogue.plates.calculation.seam_order import ProposedSeam
from catalogue.plates.models.piece import Seam
from catalogue.plates.models.plate import Plate
from catalogue.workroom.forms.as_of import MOST_ROWS, AsOfRows


class SeamForm(LengthsInUnit, forms.ModelForm):
    class Meta:
        model = Seam
        fields = (
            "piece_a",
            "edge_a",
            "length_a_um",
            "piece_b",
            "edge_b",
            "length_b_um",
            "evidence",
            "how",
            "is_eased",
        )

    def __init__(self, *args: Any, plate: Plate, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        pieces = plate.pieces.all()
        for name in ("piece_a", "piece_b"):
            self.fields[name].queryset = pieces
            # The plate's pieces are at hand: a list of its own would ask for them again in every row.
            self.fields[name].choices = [("", "choose …"), *((piece.pk, piece.name) for piece in pieces)]
        self.fields["is_eased"].label = "Eased on"
        for name, field in self.fields.items():
            if name.startswith(("edge", "how")):
                field.widget.attrs["size"] = 12


class _SeamRows(AsOfRows, forms.BaseInlineFormSet):
    pass


SeamFormSet = forms.inlineformset_factory(
    Plate, Seam, form=SeamForm, formset=_SeamRows, extra=2, can_delete=True, **MOST_ROWS
)


class SeamProposeForm(forms.Form):
    """Which of the proposed seams to take, and how they are known: the order of pieces is no evidence."""

    seams = forms.MultipleChoiceField(label="Seams", widget=forms.CheckboxSelectMultiple)
    evidence = forms.ChoiceField(
        label="How they are known", choices=Seam.Evidence, initial=Seam.Evidence.UNKNOWN
    )

    def __init__(self, *args: Any, proposed: Sequence[ProposedSeam], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.proposed = {_key(seam): seam for seam in proposed}
        self.fields["seams"].choices = [(key, _words(seam)) for key, seam in self.proposed.items()]
        self.fields["seams"].initial = list(self.proposed)

    def taken(self) -> list[ProposedSeam]:
        return [self.proposed[key] for key in self.cleaned_data["seams"]]


def _key(seam: ProposedSeam) -> str:
    return f"{seam.piece_a.key} {seam.edge_a}, {seam.piece_b.key} {seam.edge_b}"


def _words(seam: ProposedSeam) -> str:
    to = "its other half" if seam.piece_a == seam.piece_b else seam.piece_b.name
    return f"{seam.piece_a.name}, {seam.edge_a}, to {to}, {seam.edge_b}"
