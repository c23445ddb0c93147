"""A scan to send, and the four ways to calibrate it. Points: pixels of the upright scan from its top left."""

from typing import Any

import numpy as np
from django import forms

from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.photographs.imaging import FORMATS, ImageRefused, check_scan
from catalogue.tracing.calculation.calibration import (
    CalibrationRefused,
    PixelMap,
    by_axes,
    by_bar,
    by_corners,
    by_grid,
    sheet_of,
)
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.models import PlateScan

# The points that each way asks for, in turn.
POINTS = {
    "corners": ("top left corner", "top right corner", "bottom right corner", "bottom left corner"),
    "bar": ("one end", "other end"),
    "axes": ("top of the upright line", "its foot", "left end of the level line", "its right end"),
    "grid": (),
}
LENGTHS = {
    "corners": {"across": "Width of the rectangle at full size", "down": "Its height at full size"},
    "bar": {"real": "Their distance at full size"},
    "axes": {"down": "Length of the upright line at full size", "across": "Of the level line at full size"},
    "grid": {"square": "One square at full size"},
}


class ScanForm(forms.ModelForm):
    file = forms.FileField(
        label="Scan or photograph",
        help_text="JPEG, PNG, TIFF or WebP, up to 60 million pixels, of a plate that you may use. It is "
        "shown to members of this workroom only.",
    )
    field_order = ("file", "is_photograph")

    class Meta:
        model = PlateScan
        fields = ("is_photograph",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["file"].widget.attrs["accept"] = ",".join(f"image/{name.lower()}" for name in FORMATS)

    def clean_file(self) -> Any:
        file = self.cleaned_data["file"]
        try:
            check_scan(file)
        except ImageRefused as refused:
            raise forms.ValidationError(refused.sentence) from refused
        return file


class CalibrateForm(LengthsInUnit, forms.Form):
    """`found` is the calibration, once the form is valid; `given` what it was made from."""

    found: PixelMap

    def __init__(self, *args: Any, scan: PlateScan, way: str, **kwargs: Any) -> None:
        self.scan, self.way = scan, way
        super().__init__(*args, **kwargs)

    @classmethod
    def of(cls, *args: Any, scan: PlateScan, way: str, **kwargs: Any) -> "CalibrateForm":
        """The form for one way: its boxes come from the tables above."""
        boxes: dict[str, forms.Field] = {}
        for number, label in enumerate(POINTS[way], start=1):
            for axis, words in (("x", "pixels from the left"), ("y", "pixels from the top")):
                boxes[f"{axis}{number}"] = forms.FloatField(
                    label=f"{label}, {words}".capitalize(), min_value=0, widget=_pixel_box()
                )
        for name, label in LENGTHS[way].items():
            boxes[name] = LengthFormField(label=label)
        return type("CalibrateForm", (cls,), boxes)(*args, scan=scan, way=way, **kwargs)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for name in LENGTHS[self.way]:
            if cleaned.get(name) and cleaned[name].um <= 0:
                self.add_error(name, "A length to calibrate by is more than nothing.")
        if self.errors:
            return cleaned
        try:
            self.found = self._calibration(cleaned)
            sheet_of(self.found, self.scan.size)
        except CalibrationRefused as refused:
            raise forms.ValidationError(refused.sentence) from refused
        except ValueError as unsolved:
            raise forms.ValidationError(str(unsolved)) from unsolved
        return cleaned

    def _calibration(self, cleaned: dict[str, Any]) -> PixelMap:
        mm = {name: cleaned[name].um / 1000 for name in LENGTHS[self.way]}
        points = self._points(cleaned)
        size, is_photograph = self.scan.size, self.scan.is_photograph
        if self.way == "corners":
            return by_corners(points, across_mm=mm["across"], down_mm=mm["down"], size=size)
        if self.way == "bar":
            return by_bar(*points, real_mm=mm["real"], size=size, is_photograph=is_photograph)
        if self.way == "axes":
            upright, level = (points[0], points[1]), (points[2], points[3])
            return by_axes(upright, mm["down"], level, mm["across"], is_photograph=is_photograph)
        if not self.scan.grid:
            raise CalibrationRefused("No grid was found in this scan: choose another way.")
        return by_grid(
            np.array(self.scan.grid["pixels"]),
            np.array(self.scan.grid["squares"]),
            square_mm=mm["square"],
            residual_px=self.scan.grid["residual_px"],
            size=size,
        )

    def _points(self, cleaned: dict[str, Any]) -> list[Point]:
        return [complex(cleaned[f"x{n}"], cleaned[f"y{n}"]) for n in range(1, len(POINTS[self.way]) + 1)]

    @property
    def given(self) -> dict[str, Any]:
        lengths = {name: self.cleaned_data[name].text for name in LENGTHS[self.way]}
        return {"points": [[p.real, p.imag] for p in self._points(self.cleaned_data)], "lengths": lengths}

    def point_rows(self) -> list[tuple[str, forms.BoundField, forms.BoundField]]:
        """Each point: its name, its box across and its box down."""
        return [(label, self[f"x{n}"], self[f"y{n}"]) for n, label in enumerate(POINTS[self.way], start=1)]

    def length_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in LENGTHS[self.way]]


def _pixel_box() -> forms.NumberInput:
    return forms.NumberInput(attrs={"step": "any", "class": "count"})
