from dataclasses import dataclass
from typing import Any

from django import forms

from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.enlarging import (
    CopierPass,
    copier_passes,
    enlarging_percent,
    next_percent,
    projector_distance_mm,
)
from catalogue.plates.calculation.scale import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Enlarging:
    """What to set, and what the bar should measure in the end. None where nothing was asked."""

    percent: float
    across_percent: float
    passes: tuple[CopierPass, ...]
    full_bar_mm: float
    next_percent: float | None
    distance_mm: float | None


class PlateEnlargeForm(LengthsInUnit, forms.Form):
    """A bar known on the plate is what every enlargement is measured by."""

    # An inch is on every rule, and most plates have a grid of them.
    first_shown = {"bar": "1 in", "most_percent": 200, "step_percent": 1}

    bar = LengthFormField(
        label="A length on the plate to check by",
        help_text="As printed: a bar, some grid squares, one long edge.",
    )
    on_glass = LengthFormField(
        label="the same on what lies on the glass",
        required=False,
        help_text="Left empty: the plate itself is copied, not a copy of it.",
    )
    most_percent = forms.IntegerField(
        label="The copier enlarges to at most, in %", min_value=101, max_value=1000, initial=200
    )
    step_percent = forms.FloatField(
        label="in steps of, in %",
        min_value=0.1,
        max_value=10,
        initial=1,
        widget=forms.NumberInput(attrs={"step": "any"}),
    )
    measured_now = LengthFormField(
        label="The bar as it measures after a pass",
        required=False,
        help_text="The next pass then makes good what this one missed.",
    )
    distance = LengthFormField(label="The projector stands from the wall", required=False)
    on_wall = LengthFormField(label="and the bar measures on the wall", required=False)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for name in ("bar", "on_glass", "measured_now", "distance", "on_wall"):
            length = cleaned.get(name)
            if length is not None and length.um <= 0:
                self.add_error(name, "Type a length of more than nothing.")
        if bool(cleaned.get("distance")) != bool(cleaned.get("on_wall")):
            self.add_error("distance", "Type both, the distance and the bar on the wall.")
        return cleaned

    def enlarging(self, scale: Scale) -> Enlarging:
        """The figures for a plate of this scale; the form must be valid."""
        mm = {name: value.mm for name, value in self.cleaned_data.items() if isinstance(value, TypedLength)}
        bar_mm = mm["bar"]
        glass_mm = mm.get("on_glass", bar_mm)
        full_bar_mm = bar_mm * scale.along
        percent = enlarging_percent(scale.along, print_mm=bar_mm, original_mm=glass_mm)
        return Enlarging(
            percent=percent,
            across_percent=enlarging_percent(scale.across, print_mm=bar_mm, original_mm=glass_mm),
            passes=copier_passes(
                percent,
                bar_mm=glass_mm,
                most_percent=self.cleaned_data["most_percent"],
                step_percent=self.cleaned_data["step_percent"],
            ),
            full_bar_mm=full_bar_mm,
            next_percent=next_percent(mm["measured_now"], full_bar_mm) if "measured_now" in mm else None,
            distance_mm=projector_distance_mm(
                mm["distance"], measured_mm=mm["on_wall"], wanted_mm=full_bar_mm
            )
            if "distance" in mm
            else None,
        )
