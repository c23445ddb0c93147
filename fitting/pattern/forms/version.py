"""An SVG to bring in as the next version of a working pattern; what a maker ticks before one is cut."""

from datetime import datetime
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Faults
from catalogue.tracing.forms.outlines_import import FAULTS_SHOWN, SAID, UNITS, text_of_svg
from catalogue.workroom.models import User
from catalogue.workroom.reader.safe_xml import XmlRefused
from fitting.pattern.actions import tick_for_cutting
from fitting.pattern.exchange.pattern_svg import ReadPattern, pattern_of_svg
from fitting.pattern.models import CuttingTick, WorkingVersion


class BringInForm(forms.Form):
    """`read` is what the file holds, once the form is valid. `on`: the version that was looked at, or 0."""

    file = forms.FileField(
        label="SVG drawing at full size",
        help_text="One that was drawn here comes in as it was. Of any other the closed lines become pieces.",
    )
    unit = forms.ChoiceField(label="One unit of the drawing is", choices=UNITS)
    on = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    read: ReadPattern

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["file"].widget.attrs["accept"] = ".svg,image/svg+xml"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if self.errors:
            return cleaned
        unit = "" if cleaned["unit"] == SAID else cleaned["unit"]
        try:
            self.read = pattern_of_svg(text_of_svg(cleaned["file"]), unit=unit)
        except XmlRefused as refused:
            raise forms.ValidationError(refused.sentence) from refused
        except Faults as faulty:
            raise forms.ValidationError([str(fault) for fault in faulty.faults[:FAULTS_SHOWN]]) from faulty
        return cleaned

    @property
    def file_name(self) -> str:
        name = "".join(sign for sign in self.cleaned_data["file"].name if sign.isprintable())
        return name[:80]


class CuttingTickForm(forms.Form):
    """`version`: the one that was looked at; a tick is of no other."""

    what = forms.ChoiceField(choices=CuttingTick.What)
    number = forms.IntegerField()
    is_done = forms.BooleanField(required=False)

    def __init__(self, *args: Any, version: WorkingVersion | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.version = version

    def clean_number(self) -> int:
        number = self.cleaned_data["number"]
        if self.version is None or number != self.version.number:
            raise forms.ValidationError("Another version was made meanwhile: look at it first.")
        return number

    def keep(self, *, by: User, at: datetime) -> None:
        given = self.cleaned_data
        tick_for_cutting(self.version, given["what"], is_done=given["is_done"], by=by, at=at)
