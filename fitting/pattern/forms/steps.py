"""Every step of the working pattern, in the groups in which a maker looks for it; and its beginning."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import key_of
from fitting.pattern.forms.step import StepForm
from fitting.pattern.forms.step_darts import GatherDartForm, MoveDartForm, PartDartForm
from fitting.pattern.forms.step_edges import (
    AddForm,
    AllowanceForm,
    BandForm,
    FacingForm,
    MoveSeamForm,
    TrueForm,
)
from fitting.pattern.forms.step_from_others import OuterLayerForm, TakeOverForm
from fitting.pattern.forms.step_girths import AlterForm, GradeForm
from fitting.pattern.forms.step_marks import (
    LayPleatForm,
    MatchNotchesForm,
    MoveCornerForm,
    SetGrainForm,
    SlopeShoulderForm,
    TrueCornerForm,
    TrueSleeveForm,
    TurnPitchForm,
    WrapForm,
)
from fitting.pattern.forms.step_pieces import (
    CopyForm,
    CutForm,
    FullBustForm,
    JoinPiecesForm,
    LengthenForm,
    LineWithForm,
    MirrorForm,
    SidesForm,
    SpreadForm,
    TurnForm,
    UnfoldForm,
)
from fitting.pattern.models import WorkingVersion

STEP_GROUPS: tuple[tuple[str, tuple[type[StepForm], ...]], ...] = (
    ("To the wearer", (AlterForm, GradeForm, SlopeShoulderForm, FullBustForm)),
    ("Make it longer or wider", (LengthenForm, AddForm, SpreadForm, TurnForm, LayPleatForm, WrapForm)),
    ("Darts", (MoveDartForm, PartDartForm, GatherDartForm)),
    (
        "Edges and seams",
        (TrueForm, TrueSleeveForm, TrueCornerForm, MoveSeamForm, MoveCornerForm, AllowanceForm),
    ),
    ("Notches and grain", (MatchNotchesForm, TurnPitchForm, SetGrainForm)),
    ("Whole pieces", (CutForm, JoinPiecesForm, UnfoldForm, MirrorForm, CopyForm, SidesForm)),
    ("From another piece", (TakeOverForm, FacingForm, BandForm, LineWithForm, OuterLayerForm)),
)

STEP_FORMS: Mapping[str, type[StepForm]] = {form.slug(): form for _, group in STEP_GROUPS for form in group}


class BeginForm(forms.Form):
    """`on`: the version that was looked at, empty where there was none."""

    plates = forms.MultipleChoiceField(
        label="Plates",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Choose at least one plate to begin from."},
        help_text="Of several, the pieces of all become one pattern: a body, a sleeve and a collar, say. Its "
        "own seams, overlap and gap come from the first.",
    )
    on = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, data: Any = None, *, plates: Sequence[Plate], on: WorkingVersion | None) -> None:
        self.offered = {str(plate.pk): plate for plate in plates}
        self.newest = on
        first = [str(plate.pk) for plate in plates[:1]]
        super().__init__(data, initial={"plates": first, "on": on.pk if on else ""})
        self.fields["plates"].choices = [
            (key, f"{plate.reference}: {plate}") for key, plate in self.offered.items()
        ]

    def clean_plates(self) -> list[Plate]:
        return [self.offered[key] for key in self.cleaned_data["plates"]]

    @property
    def looked_at(self) -> WorkingVersion | None:
        """The newest version if it is the one that was looked at; else one that is so no longer."""
        looked_at = key_of(self.cleaned_data["on"])
        if self.newest and looked_at != self.newest.pk:
            return WorkingVersion(pk=looked_at) if looked_at else None
        return self.newest
