from collections.abc import Iterator
from typing import Any

from django import forms

from catalogue.workroom.models import User
from fitting.dossier.calculation import SECTIONS, USUAL, Section, known, moved, with_the_others
from fitting.dossier.models import Dossier
from fitting.fittings.models.session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit


class DossierForm(forms.ModelForm):
    """What to print, in which order, on what paper; offers what was chosen for this outfit last time.

    For a `fitting` it offers what one carries to it: a sheet for each garment that is fitted.

    The button `everything` prints all sections, whatever is ticked: next time the ticks are still there.
    """

    sections = forms.MultipleChoiceField(
        choices=[(section.key, section.label) for section in SECTIONS.values()], required=False
    )
    garments = forms.ModelMultipleChoiceField(
        queryset=Garment.objects.none(),
        label="Garments",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Tick at least one garment."},
    )
    everything = forms.BooleanField(required=False, widget=forms.HiddenInput)

    class Meta:
        model = Dossier
        fields = ("paper", "system")
        widgets = {"paper": forms.RadioSelect, "system": forms.RadioSelect}

    def __init__(
        self, *args: Any, outfit: Outfit, user: User, fitting: Fitting | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        last = outfit.dossiers.first()
        ticked = outfit.dossiers.filter(is_everything=False).first()
        self.initial["sections"] = list(known(ticked.sections)) if ticked else list(USUAL)
        garments = outfit.garments.all()
        self.fields["garments"].queryset = garments
        self.initial["garments"] = [one.pk for one in (fitting.garments.all() if fitting else garments)]
        if fitting:
            self.initial["sections"] = ["garments"]
        if not garments:
            del self.fields["garments"]
        self.initial["paper"] = last.paper if last else Dossier.PaperSize.A4
        self.initial["system"] = last.system if last else user.system
        self.order = with_the_others(last.sections if last else ())
        for place, key in enumerate(self.order, start=1):
            self.fields[_place(key)] = forms.IntegerField(
                label=f"Place of: {SECTIONS[key].label}",
                required=False,
                min_value=1,
                max_value=99,
                initial=place,
            )

    @property
    def rows(self) -> Iterator[tuple[Section, bool, forms.BoundField]]:
        """Each section in the order offered, whether it is ticked, and the box of its place."""
        ticked = self["sections"].value() or ()
        for key in self.order:
            yield SECTIONS[key], key in ticked, self[_place(key)]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        order = moved(self.order, {key: cleaned.get(_place(key)) for key in self.order})
        if not cleaned.get("everything"):
            order = tuple(key for key in order if key in cleaned.get("sections", ()))
            if not order and "sections" not in self.errors:
                self.add_error("sections", "Choose at least one part to print.")
        cleaned["sections"] = order
        return cleaned

    @property
    def wish(self) -> dict[str, Any]:
        """What was asked for, as `ask_for_dossier` takes it."""
        given = self.cleaned_data
        return {name: given[name] for name in ("sections", "paper", "system")} | {
            "is_everything": given["everything"],
            "garments": [] if self._is_of_all else given["garments"],
        }

    @property
    def _is_of_all(self) -> bool:
        """Said by naming none: a garment that is added later belongs to it too."""
        offered = self.fields.get("garments")
        return offered is None or len(self.cleaned_data["garments"]) == len(offered.queryset)


def _place(key: str) -> str:
    return f"place_{key}"
