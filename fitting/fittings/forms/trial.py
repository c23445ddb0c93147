"""A toile or a miniature: what it taught, and its measures against the forecast."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.http import QueryDict

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Seam
from catalogue.workroom.models import User
from fitting.fittings.loading.trials import Forecast
from fitting.fittings.models.trial import Trial

COLUMNS = ("forecast", "sewn", "fitted")
SPOKEN = {"forecast": "forecast", "sewn": "flat after sewing", "fitted": "flat after fitting"}


class TrialForm(forms.ModelForm):
    class Meta:
        model = Trial
        fields = ("kind", "made_on", "made_of", "learnt", "seams")
        widgets = {
            "made_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "learnt": forms.Textarea(attrs={"rows": 4}),
            "seams": forms.CheckboxSelectMultiple,
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        plate = self.instance.garment.plate_id
        seams = Seam.objects.filter(plate=plate).select_related("piece_a", "piece_b")
        self.fields["seams"].queryset = seams if plate else Seam.objects.none()
        if not self.fields["seams"].queryset.exists():
            del self.fields["seams"]


class TrialMeasuresForm(forms.Form):
    """A table: each line with its forecast, measured flat after sewing and after fitting."""

    def __init__(
        self, data: QueryDict | None, *, trial: Trial, forecasts: Sequence[Forecast], user: User
    ) -> None:
        super().__init__(data, prefix="measure")
        known = {row.line: row for row in trial.measures.all()} if trial.pk else {}
        forecast_mm = {one.line: one.mm for one in forecasts}
        self.lines = [line for line in LINES.values() if line.key in known or line.key in forecast_mm]
        for line in self.lines:
            for column in COLUMNS:
                field = LengthFormField(
                    required=False, unit=user.system, label=f"{line.label}, {SPOKEN[column]}"
                )
                field.denominator = user.denominator
                field.widget.attrs |= {"aria-label": field.label, "size": 8}
                if row := known.get(line.key):
                    field.initial = getattr(row, column)
                elif column == "forecast":
                    field.initial = TypedLength(text="", um=round(forecast_mm[line.key] * 1000))
                self.fields[f"{column}_{line.key}"] = field

    def rows(self) -> list[tuple[str, list[forms.BoundField]]]:
        return [(line.label, [self[f"{column}_{line.key}"] for column in COLUMNS]) for line in self.lines]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for line in self.lines:
            forecast, *measured = (cleaned.get(f"{column}_{line.key}") for column in COLUMNS)
            if any(measured) and not forecast and f"forecast_{line.key}" not in self.errors:
                self.add_error(f"forecast_{line.key}", "Say what was forecast here.")
        return cleaned

    def measures(self) -> list[dict[str, object]]:
        """The lines that were forecast, as columns of their rows, whether measured yet or not."""
        return [row for line in self.lines if (row := self._row(line.key))]

    def _row(self, line: str) -> dict[str, object] | None:
        typed: dict[str, TypedLength | None] = {
            column: self.cleaned_data.get(f"{column}_{line}") for column in COLUMNS
        }
        if not typed["forecast"]:
            return None
        return {"line": line, **typed}
