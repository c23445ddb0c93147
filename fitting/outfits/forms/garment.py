"""A garment of an outfit, the same made again, and what is changed on its page: references and ease.

Buttons that ask for another row or for a preset save nothing: the page comes back with all that was typed.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils import timezone

from catalogue.lengths.calculation.lengths import format_length
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.models import User
from fitting.outfits.calculation.ease import EasePreset, ease_presets
from fitting.outfits.loading.layers import kind_of
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Measures, Stand

MORE = {"more_references": "references", "more_eases": "eases"}
# There are fewer levels and lengths than that; a page that asks for thousands of rows would take its time.
MOST_ROWS = 100
_LIMITS = {"can_delete": True, "max_num": MOST_ROWS, "absolute_max": MOST_ROWS}


class _GarmentOfOutfit(forms.ModelForm):
    """The choices are those of the outfit's workroom; the measures those of its wearer."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outfit = self.instance.outfit
        plates = Plate.objects.of_workroom(outfit.workroom).select_related("reference")
        self.fields["plate"].queryset = plates.order_by("reference__name", "pk")
        self.fields["plate"].label_from_instance = lambda plate: f"{plate.reference}: {plate}"
        self.fields["plate"].empty_label = "none yet"
        self.fields["stand"].queryset = Stand.objects.of_workroom(outfit.workroom)
        self.fields["stand"].empty_label = "none"
        self.fields["measures"].queryset = Measures.objects.filter(wearer=outfit.wearer_id)
        self.fields["measures"].empty_label = "chosen by what is worn beneath"


class GarmentForm(LengthsInUnit, _GarmentOfOutfit):
    lies_at = forms.MultipleChoiceField(
        label="where it lies",
        required=False,
        choices=[(line.key, line.label) for line in LINES.values() if line.kind == "girth" and line.on_body],
        widget=forms.CheckboxSelectMultiple,
        help_text="Tick nothing, and it lies where its kind usually does.",
    )

    class Meta:
        model = Garment
        fields = (
            "name", "kind", "stage", "purpose", "plate", "measures", "stand",
            "lies_at", "band_at", "is_gauged", "arc_percent",
            "thickness_um", "layers", "gather_ratio", "is_boned", "reduction_um", "made_on",
            "needs_parts", "edges_that_may_take", "notes",
        )  # fmt: skip
        widgets = {
            "made_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind = (
            kind_of(Garment(name=self.instance.name, plate=self.instance.plate)) if self.instance.pk else None
        )
        unsaid = f"as its name says: {kind.key}" if kind else "as its name says"
        self.fields["kind"].choices = [("", unsaid), *self.fields["kind"].choices[1:]]
        self.fields["band_at"].choices = [("", "as usual"), *self.fields["band_at"].choices[1:]]

    def clean_made_on(self) -> date | None:
        day = self.cleaned_data["made_on"]
        if day and day > timezone.localdate():
            raise forms.ValidationError(
                f"{day:%-d %B %Y} is still to come. Is the year right? Leave it empty until it is made."
            )
        if "made_on" in self.changed_data:
            self.instance.made_said_at = timezone.now()
        return day


class GarmentAgainForm(forms.Form):
    """For whom the same garment is made again: an outfit that does not have it yet."""

    outfit = forms.ModelChoiceField(queryset=None, empty_label=None)

    def __init__(self, *args: Any, garment: Garment, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        have_it = Garment.objects.same_as(garment).values("outfit")
        others = Outfit.objects.of_workroom(garment.its_workroom()).select_related("wearer")
        self.fields["outfit"].queryset = others.exclude(pk=garment.outfit_id).exclude(pk__in=have_it)
        self.fields["outfit"].label_from_instance = _with_wearer


def _with_wearer(outfit: Outfit) -> str:
    return f"{outfit}, for {outfit.wearer}" if outfit.wearer else str(outfit)


class ReferenceUsedForm(forms.ModelForm):
    class Meta:
        model = GarmentReference
        fields = ("reference", "what_for")
        widgets = {"what_for": forms.TextInput(attrs={"size": 30, "placeholder": "cut, trimming, closure …"})}

    def __init__(self, *args: Any, references: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["reference"].queryset = references


class EaseForm(LengthsInUnit, forms.ModelForm):
    """One row of the table of ease. One offered for a level that was read counts once it is filled in."""

    class Meta:
        model = Ease
        fields = ("line", "ease_um", "fit", "gap_um", "source")
        widgets = {"source": forms.TextInput(attrs={"size": 24})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["ease_um"].required = False
        if not self.instance.pk:
            self.initial["ease_um"] = None
        for name, field in self.fields.items():
            field.widget.attrs["aria-label"] = f"{field.label}, row {self.prefix.rpartition('-')[2]}"
            field.widget.attrs.pop("placeholder", None)
            if name in ("ease_um", "gap_um"):
                field.widget.attrs["size"] = 8

    def has_changed(self) -> bool:
        if self.instance.pk:
            return super().has_changed()
        return bool(set(self.changed_data) - {"line"})

    def clean_ease_um(self) -> TypedLength:
        return self.cleaned_data["ease_um"] or TypedLength(text=f"0 {self.fields['ease_um'].unit}", um=0)


ReferencesUsed = forms.inlineformset_factory(
    Garment, GarmentReference, form=ReferenceUsedForm, extra=1, **_LIMITS
)
Eases = forms.inlineformset_factory(Garment, Ease, form=EaseForm, extra=0, **_LIMITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Preset:
    """Published ease for one kind of garment from one source. `key` names it on its button."""

    key: str
    label: str
    source: str
    rows: tuple[EasePreset, ...]

    @property
    def author(self) -> str:
        """Who published it, in a word: two presets may be for the same kind of garment."""
        return self.source.split(",")[0]


class GarmentParts:
    def __init__(self, data: QueryDict | None, *, garment: Garment, user: User) -> None:
        self.presets = presets_for(garment)
        self.only_asks = data is not None and any(name in data for name in (*MORE, "preset"))
        offered = [] if data is not None else _levels_to_offer(garment)
        if data is not None:
            data = data.copy()
            for button, prefix in MORE.items():
                if button in data:
                    _add_rows(data, prefix, 1)
            _fill_in(data, next((one for one in self.presets if one.key == data.get("preset")), None), user)
        references = ReferenceGarment.objects.of_workroom(garment.outfit.workroom)
        self.references = ReferencesUsed(
            data, instance=garment, prefix="references", form_kwargs={"references": references}
        )
        self.eases = Eases(
            data,
            instance=garment,
            prefix="eases",
            form_kwargs={"user": user},
            initial=[{"line": line} for line in offered],
        )
        self.eases.extra = len(offered)

    def is_valid(self) -> bool:
        return all([self.references.is_valid(), self.eases.is_valid()])


def presets_for(garment: Garment) -> list[Preset]:
    """The published ease that suits what is worn beneath: no modern table over stays."""
    beneath = garment.outfit.garments.filter(order__lt=garment.order)
    over_stays = any(layer.is_boned for layer in beneath)
    rows = sorted(ease_presets(over_stays=over_stays), key=lambda row: (row.garment, row.source))
    return [
        Preset(key=f"{kind}, {source}", label=kind, source=source, rows=tuple(group))
        for (kind, source), group in groupby(rows, key=lambda row: (row.garment, row.source))
    ]


def _levels_to_offer(garment: Garment) -> list[str]:
    """Lines that were read on the plate and have no ease yet, from the top down."""
    pieces = garment.plate.pieces.all() if garment.plate else ()
    read = {reading.line for piece in pieces for reading in piece.readings.all()}
    have = {ease.line for ease in garment.eases.all()}
    return [line for line in LINES if line in read - have]


def _add_rows(data: QueryDict, prefix: str, count: int) -> int:
    """Make room for more rows; return the number of the first new one."""
    total = _rows_in(data, prefix)
    data[f"{prefix}-TOTAL_FORMS"] = str(total + count)
    return total


def _rows_in(data: QueryDict, prefix: str) -> int:
    """How many rows the page says it sent; what is no number, or more than a page holds, is none."""
    typed = data.get(f"{prefix}-TOTAL_FORMS", "")
    return int(typed) if typed.isdecimal() and len(typed) < 3 else 0


def _fill_in(data: QueryDict, preset: Preset | None, user: User) -> None:
    """Put the least ease of each level of a preset into its row, where none is typed yet."""
    for row in preset.rows if preset else ():
        number = _row_of(data, row.level)
        if number is None:
            number = _add_rows(data, "eases", 1)
            data[f"eases-{number}-line"] = row.level
            data[f"eases-{number}-fit"] = "fitted"
        if data.get(f"eases-{number}-ease_um", "").strip():
            continue
        least = format_length(row.least_mm, system=user.system)
        upward = "or more" if row.most_mm is None else f"to {format_length(row.most_mm, system=user.system)}"
        data[f"eases-{number}-ease_um"] = least
        data[f"eases-{number}-source"] = f"{least} {upward}: {row.source}"


def _row_of(data: QueryDict, line: str) -> int | None:
    numbers: Iterable[int] = range(_rows_in(data, "eases"))
    return next((number for number in numbers if data.get(f"eases-{number}-line") == line), None)
