"""Many lengths that are known on a plate: both ends of each as pixels, and what it is at full size."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.tracing.calculation.calibration import PixelMap, sheet_of
from catalogue.tracing.calculation.geometry import LONGEST_NAME, MOST_KNOWN
from catalogue.tracing.calculation.known_lengths import KnownLength, by_lengths
from catalogue.tracing.models import PlateScan

FIRST_ROWS, EMPTY_ROWS = 6, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthRow:
    """The boxes of one length: its ends with their names, what it is, and whether it is left out."""

    number: int
    ends: list[tuple[str, forms.BoundField, forms.BoundField]]
    name: forms.BoundField
    length: forms.BoundField
    left_out: forms.BoundField


class KnownLengthsForm(LengthsInUnit, forms.Form):
    """`found` is the calibration, once the form is valid; `given` what it was made from."""

    found: PixelMap
    scan: PlateScan
    count: int

    @classmethod
    def of(cls, data: Any = None, *, scan: PlateScan, user: Any) -> "KnownLengthsForm":
        """With the lengths of the newest calibration, where that was made by lengths, and room for more."""
        newest = scan.calibrations.first()
        held = newest.given if newest and newest.way == newest.Way.LENGTHS else {"points": [], "lengths": {}}
        count = min(MOST_KNOWN, max(FIRST_ROWS, len(held["points"]) // 2 + EMPTY_ROWS))
        boxes: dict[str, forms.Field] = {}
        for number in range(1, count + 1):
            for end in (2 * number - 1, 2 * number):
                for axis in "xy":
                    box = forms.NumberInput(attrs={"step": "any", "class": "count"})
                    boxes[f"{axis}{end}"] = forms.FloatField(required=False, min_value=0, widget=box)
            boxes[f"name{number}"] = forms.CharField(label="Called", required=False, max_length=LONGEST_NAME)
            boxes[f"length{number}"] = LengthFormField(label="At full size", required=False)
            boxes[f"left_out{number}"] = forms.BooleanField(label="Leave it out", required=False)
        form = type("KnownLengthsForm", (cls,), boxes)(data, initial=_initial(held), user=user)
        form.scan, form.count = scan, count
        return form

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        self.known: list[tuple[int, KnownLength]] = []
        for number in range(1, self.count + 1):
            self._read(cleaned, number)
        if self.errors:
            return cleaned
        try:
            self.found = by_lengths([one for _, one in self.known])
            sheet_of(self.found, self.scan.size)
        except NotUnderstood as refused:
            raise forms.ValidationError(refused.sentence) from refused
        return cleaned

    def _read(self, cleaned: Mapping[str, Any], number: int) -> None:
        names = [f"{axis}{end}" for end in (2 * number - 1, 2 * number) for axis in "xy"]
        places, length = [cleaned.get(name) for name in names], cleaned.get(f"length{number}")
        if cleaned.get(f"left_out{number}") or any(
            name in self.errors for name in (*names, f"length{number}")
        ):
            return
        if all(one is None for one in (*places, length)):
            return
        if length is None or length.um <= 0:
            self.add_error(f"length{number}", "Say what it measures, more than nothing, or empty its places.")
        elif None in places:
            self.add_error(f"length{number}", "Give both its ends, across and down, or empty this box.")
        else:
            x1, y1, x2, y2 = places
            one = KnownLength(start=complex(x1, y1), end=complex(x2, y2), mm=length.mm)
            self.known.append((number, one))

    @property
    def given(self) -> dict[str, Any]:
        """What was given, numbered from 1 in the order of the rows, each with its name."""
        typed = self.cleaned_data
        numbers = [number for number, _ in self.known]
        ends = [end for _, one in self.known for end in (one.start, one.end)]
        return {
            "points": [[end.real, end.imag] for end in ends],
            "lengths": {str(at): typed[f"length{number}"].text for at, number in enumerate(numbers, start=1)},
            "names": {str(at): typed[f"name{number}"] for at, number in enumerate(numbers, start=1)},
        }

    def rows(self) -> list[LengthRow]:
        return [
            LengthRow(
                number=number,
                ends=[
                    (f"{words} of length {number}", self[f"x{end}"], self[f"y{end}"])
                    for words, end in (("one end", 2 * number - 1), ("other end", 2 * number))
                ],
                name=self[f"name{number}"],
                length=self[f"length{number}"],
                left_out=self[f"left_out{number}"],
            )
            for number in range(1, self.count + 1)
        ]


def _initial(held: Mapping[str, Any]) -> dict[str, Any]:
    initial: dict[str, Any] = {}
    for number, (x, y) in enumerate(held["points"], start=1):
        initial |= {f"x{number}": x, f"y{number}": y}
    for key, text in held["lengths"].items():
        initial[f"length{key}"] = TypedLength.read(text)
    for key, text in held.get("names", {}).items():
        initial[f"name{key}"] = text
    return initial
