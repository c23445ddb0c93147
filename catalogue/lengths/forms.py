"""Typed text becomes a length here, once: below a form there are only micrometres and millimetres."""

from typing import Any, Protocol

from django import forms

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.lengths import canonical_text, format_length, parse_length, to_um
from catalogue.lengths.models import TypedLength


class LengthFormField(forms.CharField):
    """Text to TypedLength. `unit` is what a bare number means; it comes from the reader's preference."""

    def __init__(
        self, *, unit: str = "in", sixteenths: bool = False, signed: bool = False, **kwargs: Any
    ) -> None:
        self.unit, self.sixteenths, self.signed = unit, sixteenths, signed
        self.denominator = 32
        kwargs.setdefault("max_length", 60)
        kwargs.setdefault(
            "widget", forms.TextInput(attrs={"class": "length", "autocomplete": "off", "size": 10})
        )
        super().__init__(**kwargs)

    def clean(self, value: str | None) -> TypedLength | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            mm = parse_length(text, unit=self.unit, sixteenths=self.sixteenths, signed=self.signed)
        except LengthNotUnderstood as fault:
            raise forms.ValidationError(fault.sentence, code="length") from fault
        typed = canonical_text(text, unit=self.unit, sixteenths=self.sixteenths, signed=self.signed)
        return TypedLength(text=typed, um=to_um(mm))

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, TypedLength):
            return value.text or format_length(
                value.um / 1000, system=self.unit, denominator=self.denominator
            )
        return value

    def has_changed(self, initial: Any, data: Any) -> bool:
        return (self.prepare_value(initial) or "") != (data or "").strip()


class Typist(Protocol):
    """Who types: `system` says whether a bare number means inches or centimetres."""

    system: str


class LengthsInUnit:
    """Mixin of forms: `user` decides what a bare number means, and each length says so beside its box."""

    def __init__(self, *args: Any, user: Typist, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            if isinstance(field, LengthFormField):
                field.unit = user.system
                field.widget.attrs.setdefault("placeholder", user.system)
