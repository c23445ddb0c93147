"""A set of measures: when and over what it was taken, and the table of takes.

The table has several boxes for each line, and for its sides where they can be taken apart.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import Any

from django import forms
from django.db.models import Model
from django.utils import timezone

from catalogue.lengths.calculation.errors import Fault
from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import User
from fitting.wearers.calculation.plausibility import METRIC, doubts_of_girths
from fitting.wearers.calculation.takes import Taking, taken_by_line, takes_far_apart
from fitting.wearers.models import Measures, Take
from fitting.wearers.showing import lines_of, numbers_of

GARMENTS = Measures._meta.get_field("worn").related_model.objects
TAKES = ("first", "second", "third")


class WornField(forms.ModelMultipleChoiceField):
    def label_from_instance(self, garment: Model) -> str:
        return f"{garment.name} ({garment.outfit})"


class MeasuresForm(LengthsInUnit, forms.ModelForm):
    """What stands above the figures: when, over what, laced how, by whom."""

    worn = WornField(
        queryset=GARMENTS.none(),
        required=False,
        label="Garments worn beneath",
        widget=forms.CheckboxSelectMultiple,
        help_text="If one of them is changed later, these measures count as stale.",
    )

    class Meta:
        model = Measures
        fields = (
            "taken_on",
            "state",
            "worn",
            "state_note",
            "gap_top_um",
            "gap_waist_um",
            "gap_bottom_um",
            "heel_um",
            "laced_by",
            "measured_by",
            "is_sent_in",
            "notes",
        )
        widgets = {
            "taken_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 2}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        worn = GARMENTS.filter(outfit__wearer=self.instance.wearer).select_related("outfit")
        self.fields["worn"].queryset = worn.order_by("outfit__name", "order", "pk")

    def clean_taken_on(self) -> date:
        taken_on: date = self.cleaned_data["taken_on"]
        if taken_on > timezone.localdate():
            raise forms.ValidationError("That day is still to come.")
        return taken_on

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        layers = cleaned.get("worn") or cleaned.get("state_note")
        if cleaned.get("state") == Measures.State.OVER_LAYERS and not layers:
            self.add_error("state_note", "Say over which layers: tick the garments, or name them here.")
        return cleaned


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeRow:
    """A row of the table, with a box for each take; `number` is that on the drawings."""

    line: Line
    side: str
    number: int | None
    boxes: list[forms.BoundField]

    @property
    def is_open(self) -> bool:
        """Whether a row that is folded away must be seen: something is typed in it, or missing."""
        return any(box.errors or box.value() for box in self.boxes)


class TakesForm(forms.Form):
    """`asked_first`: the lines that stand at the top of the page; left empty, all of them do."""

    def __init__(
        self,
        *args: Any,
        measures: Measures,
        user: User,
        asked_first: Collection[str] = (),
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.system = user.system
        self.denominator = user.denominator
        self.asked_first = asked_first
        self.numbers = numbers_of(measures.wearer.dress)
        self.known = _known(measures)
        of_dress = {line.key for line in lines_of(measures.wearer.dress)}
        self.lines = [
            line for line in LINES.values() if line.key in of_dress | {one for one, _ in self.known}
        ]
        for line in self.lines:
            for side in ("", *_sides(line)):
                self._add_boxes(line, side)

    def _add_boxes(self, line: Line, side: str) -> None:
        known = self.known.get((line.key, side), [])
        for at, take in enumerate(_takes(known)):
            field = LengthFormField(required=False, unit=self.system, label=_spoken(line, side, take))
            field.denominator = self.denominator
            field.widget.attrs |= {"aria-label": field.label, "size": 8}
            if at < len(known):
                field.initial = known[at]
            self.fields[_name(line.key, side, at)] = field

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not any(cleaned.values()) and not self.errors:
            raise forms.ValidationError("Type at least one measure.")
        typed = {(line, side) for line, side, _ in self.takes()}
        for line in self.lines:
            arcs = [side for side in ("front", "back") if (line.key, side) in typed]
            if len(arcs) == 1 and (line.key, "") not in typed:
                missing = "back" if arcs == ["front"] else "front"
                self.add_error(_name(line.key, missing, 0), "One arc makes no girth: take this one too.")
        return cleaned

    def takes(self) -> list[tuple[str, str, TypedLength]]:
        """What was typed: line, side and length, in the order of the table."""
        return [
            (line.key, side, length)
            for line in self.lines
            for side in ("", *_sides(line))
            for length in self._lengths(line.key, side)
        ]

    def doubts(self) -> list[Fault]:
        """What to ask about before these figures are kept."""
        takes = [Taking(line=line, side=side, mm=length.um / 1000) for line, side, length in self.takes()]
        taken = taken_by_line(takes)
        sides_mm = {
            key: (one.sides["left"].mm, one.sides["right"].mm)
            for key, one in taken.items()
            if {"left", "right"} <= one.sides.keys()
        }
        measures_mm = {key: one.measure.mm for key, one in taken.items()}
        metric = {line for line, _, length in self.takes() if length.text.endswith(METRIC)}
        unlikely = doubts_of_girths(measures_mm, sides_mm=sides_mm, system=self.system, metric=metric)
        return [*takes_far_apart(takes, system=self.system), *unlikely]

    def rows_asked(self) -> list[TakeRow]:
        return [self._row(line, "") for line in self.lines if self._is_asked(line)]

    def rows_besides(self) -> list[TakeRow]:
        return [self._row(line, "") for line in self.lines if not self._is_asked(line)]

    def rows_apart(self) -> list[TakeRow]:
        """The sides of every line that has sides."""
        return [self._row(line, side) for line in self.lines for side in _sides(line)]

    def faulty_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.fields if self[name].errors]

    def _is_asked(self, line: Line) -> bool:
        return not self.asked_first or line.key in self.asked_first

    def _row(self, line: Line, side: str) -> TakeRow:
        boxes = [self[name] for name in self._names(line.key, side)]
        return TakeRow(line=line, side=side, number=self.numbers.get(line.key), boxes=boxes)

    def _names(self, key: str, side: str) -> list[str]:
        return [_name(key, side, at) for at, _ in enumerate(_takes(self.known.get((key, side), [])))]

    def _lengths(self, key: str, side: str) -> list[TypedLength]:
        typed = (self.cleaned_data.get(name) for name in self._names(key, side))
        return [length for length in typed if length is not None]


def _known(measures: Measures) -> dict[tuple[str, str], list[TypedLength]]:
    known: dict[tuple[str, str], list[TypedLength]] = {}
    rows: list[Take] = list(measures.takes.all()) if measures.pk else []
    for one in rows:
        known.setdefault((one.line, one.side), []).append(one.value)
    return known


def _sides(line: Line) -> tuple[str, ...]:
    if line.has_sides:
        return ("left", "right")
    return ("front", "back") if line.has_arcs else ()


def _takes(known: list[TypedLength]) -> tuple[str, ...]:
    """The names of the boxes; a set that came in with more takes keeps a box for each."""
    return (*TAKES, *(f"number {at + 1}" for at in range(len(TAKES), len(known))))


def _name(key: str, side: str, at: int) -> str:
    return "_".join(("take", *key.split(), *([side] if side else []), str(at + 1)))


def _spoken(line: Line, side: str, take: str) -> str:
    return ", ".join(part for part in (line.label, side, f"{take} take") if part)
