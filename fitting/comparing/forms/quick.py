"""The boxes of the quick comparison, and what they hold to begin with: plain defaults, or an example to try.

What goes by level stands in one table, a column a level.
"""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.levels import girths, lengths
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.scale import read_ratio, read_words
from catalogue.plates.models.plate import Plate
from fitting.outfits.calculation.garment import Fit
from fitting.outfits.models.garment import FIT_CHOICES, PURPOSE_CHOICES
from fitting.wearers.models import Measures

# How many rows of each kind there are: the box that says so, and the most that a page can hold.
COUNTS = {"level": ("levels", 8), "piece": ("pieces", 24), "length": ("lengths", 12)}

# What a new row holds.
FRESH: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "level": {"line": "", "fit": "fitted"},
        "piece": {"cut": "2"},
        "length": {"line": "", "crossed_ends": "0"},
    }
)

# What the records are called where nobody says otherwise.
NAMES: Mapping[str, str] = MappingProxyType(
    {
        "reference": "Garment on the plate",
        "wearer": "Wearer",
        "outfit": "New outfit",
        "garment": "Garment",
    }
)

_PLATE = {
    "scale": "1:8",
    "read_from": "book",
    "allowance": "none",
    "rule": "1/16 in",
    "state": "over stays",
    "purpose": "this garment",
}
# Levels of an arm or a leg go round one limb: they need a plate with pieces, where that can be said.
LEVELS = [
    ("", "choose a level"),
    *((line.key, line.label) for line in girths() if line.on_body and not line.has_sides),
]
LENGTHS = [("", "choose a length"), *((line.key, line.label) for line in lengths() if line.on_body)]
FITS = [choice for choice in FIT_CHOICES if choice[0] != Fit.NOT_THERE]
_WORDS = re.compile(r"\s*(.+?)\s*(?:=|\bequals?\b|\bstands? for\b|\bto\b)\s*(.+?)\s*", re.IGNORECASE)


def _rows(kind: str, *rows: Mapping[str, str]) -> dict[str, str]:
    boxes = {
        f"{kind}-{at}-{name}": text
        for at, row in enumerate(rows)
        for name, text in (FRESH[kind] | row).items()
    }
    return {COUNTS[kind][0]: str(len(rows)), **boxes}


DEFAULTS: Mapping[str, str] = MappingProxyType(
    _PLATE
    | _rows("level", {"line": "bust"}, {"line": "waist"}, {"line": "hip"})
    | _rows("piece", {"name": "front"}, {"name": "back"}, {})
    | _rows("length", {"line": "nape to waist"})
)

# A back-laced bodice of our own, small enough to follow by hand: its waist comes to 24 1/2 in.
EXAMPLE: Mapping[str, str] = MappingProxyType(
    _PLATE
    | {"rule": "1/32 in"}
    | _rows(
        "level",
        {"line": "bust", "gap": "1 in", "body": "33 1/2 in", "ease": "1/2 in"},
        {"line": "waist", "gap": "1/2 in", "body": "25 in", "ease": "0 in"},
    )
    | _rows(
        "piece",
        {"name": "front", "reading_0": "1 1/16 in", "reading_1": "13/16 in", "take_up_1": "1/16 in"},
        {"name": "side back", "reading_0": "1/2 in", "reading_1": "3/8 in"},
        {"name": "back", "reading_0": "13/32 in", "reading_1": "3/8 in"},
    )
    | _rows("length", {"line": "nape to waist", "reading": "1 7/8 in", "body": "15 in", "ease": "0 in"})
)


class _InTable(LengthsInUnit):
    """Boxes in a table have no label beside them: `spoken` goes before each one's name."""

    def __init__(self, *args: Any, spoken: str, sixteenths: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.widget.attrs["aria-label"] = f"{spoken}, {field.label or name.replace('_', ' ')}"
            if isinstance(field, LengthFormField):
                field.widget.attrs |= {"size": 7, "placeholder": ""}
                field.sixteenths = sixteenths and name.startswith(("reading", "take_up"))


class QuickPlateForm(LengthsInUnit, forms.Form):
    scale = forms.CharField(
        max_length=60,
        help_text="As printed: 1:8, or 1 in = 8 in.",
        widget=forms.TextInput(attrs={"size": 14}),
    )
    read_from = forms.ChoiceField(label="Read off", choices=Plate.ReadFrom.choices)
    allowance = forms.ChoiceField(label="Seam allowance", choices=Plate.AllowanceKind.choices)
    allowance_size = LengthFormField(required=False, label="Allowance at full size")
    rule = LengthFormField(label="Smallest division of your rule")
    sixteenths = forms.BooleanField(label="19 in a reading means 19 sixteenths of an inch", required=False)
    state = forms.ChoiceField(label="Measured", choices=Measures.State.choices)
    is_sent_in = forms.BooleanField(
        label="sent in by the wearer, not taken by a trained hand", required=False
    )
    purpose = forms.ChoiceField(label="What is wanted", choices=PURPOSE_CHOICES)

    def clean_scale(self) -> str | tuple[TypedLength, TypedLength]:
        text = self.cleaned_data["scale"]
        is_ratio = ":" in text or "∶" in text
        try:
            if is_ratio:
                read_ratio(text)
                return text
            read_words(text)
            page, real = _WORDS.fullmatch(text).groups()
            return TypedLength.read(page), TypedLength.read(real)
        except NotUnderstood as fault:
            sentence = fault.sentence if is_ratio else f"{fault.sentence} A ratio is typed as 1:8."
            raise forms.ValidationError(sentence, code="scale") from fault

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        included = cleaned.get("allowance") == Plate.AllowanceKind.INCLUDED
        if included and not cleaned.get("allowance_size") and "allowance_size" not in self.errors:
            self.add_error("allowance_size", "Say how wide it is at full size, or choose “not known”.")
        return cleaned


class QuickLevelForm(_InTable, forms.Form):
    """One column: which level it is, what fastens there, the wearer's girth, the ease and how it fits."""

    line = forms.ChoiceField(label="level", choices=LEVELS, required=False)
    overlap = LengthFormField(required=False, label="overlap")
    gap = LengthFormField(required=False, label="lacing gap")
    body = LengthFormField(required=False, label="the wearer")
    ease = LengthFormField(required=False, label="ease", signed=True)
    fit = forms.ChoiceField(label="how it fits", choices=FITS)


class QuickLengthForm(_InTable, forms.Form):
    line = forms.ChoiceField(label="length", choices=LENGTHS, required=False)
    reading = LengthFormField(required=False, label="on the plate")
    crossed_ends = forms.TypedChoiceField(
        label="seams crossed at its ends", choices=[(0, "none"), (1, "one"), (2, "both")], coerce=int
    )
    body = LengthFormField(required=False, label="the wearer")
    ease = LengthFormField(required=False, label="ease", signed=True)


class _PieceWithColumns(forms.Form):
    name = forms.CharField(max_length=80, required=False, widget=forms.TextInput(attrs={"size": 12}))
    cut = forms.IntegerField(label="times cut", min_value=1, max_value=40)
    on_fold = forms.BooleanField(label="drawn to a fold", required=False)

    def __init__(self, *args: Any, columns: list[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for at, column in enumerate(columns):
            self.fields[f"reading_{at}"] = LengthFormField(required=False, label=column)
            self.fields[f"take_up_{at}"] = LengthFormField(required=False, label=f"{column}, taken up")


class QuickPieceForm(_InTable, _PieceWithColumns):
    """One piece, with a reading and a take-up for each of `columns`, the spoken names of the levels."""

    def cells(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        count = sum(name.startswith("reading_") for name in self.fields)
        return [(self[f"reading_{at}"], self[f"take_up_{at}"]) for at in range(count)]


class QuickNamesForm(forms.Form):
    """What the records are called. A box may stay as it is offered, and one left empty takes it again."""

    reference = forms.CharField(label="Reference garment", max_length=160, required=False)
    wearer = forms.CharField(max_length=120, required=False)
    outfit = forms.CharField(max_length=160, required=False)
    garment = forms.CharField(max_length=120, required=False)

    def names(self) -> dict[str, str]:
        return {name: self.cleaned_data[name] or NAMES[name] for name in self.fields}
