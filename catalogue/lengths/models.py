"""A length in a row: whole micrometres to sort and filter by, and the text as a person typed it.

    reading_um = LengthField()
    reading_text = TypedText()

`waist_um` and `waist_text` go together: the form field fills both, and shows the text again to be edited.
What is reckoned is reckoned from the text (`exact_mm` says why).
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.db import models

from catalogue.lengths.calculation.lengths import parse_length, to_um


@dataclass(frozen=True, slots=True)
class TypedLength:
    """A length that a person typed: `text` carries its unit, `um` is the nearest micrometre."""

    text: str
    um: int

    @classmethod
    def read(cls, text: str, *, signed: bool = False) -> "TypedLength":
        return cls(text=text, um=to_um(parse_length(text, signed=signed)))


def exact_mm(um: int, text: str) -> Fraction:
    """Return the exact millimetres of a length: from its text where there is one, else from its micrometres.

    1/16 in is 1587.5 µm: from the column alone, half a micrometre would be lost before it is multiplied.
    """
    return parse_length(text, signed=True) if text else Fraction(um, 1000)


class LengthField(models.BigIntegerField):
    """Micrometres; the column of the same name ending in `_text` holds what was typed."""

    def __init__(self, *args: Any, signed: bool = False, **kwargs: Any) -> None:
        self.signed = signed
        super().__init__(*args, **kwargs)

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        name, path, args, kwargs = super().deconstruct()
        if self.signed:
            kwargs["signed"] = True
        return name, path, args, kwargs

    @property
    def text_name(self) -> str:
        return f"{self.name.removesuffix('_um')}_text"

    @property
    def has_text(self) -> bool:
        """Whether a person types it: what is only reckoned has no text beside it."""
        return any(one.name == self.text_name for one in self.model._meta.fields)

    def formfield(self, **kwargs: Any) -> Any:
        from catalogue.lengths.forms import LengthFormField

        return LengthFormField(
            required=not self.blank,
            label=kwargs.get("label", self.verbose_name.removesuffix(" um").capitalize()),
            help_text=self.help_text,
            signed=self.signed,
        )

    def save_form_data(self, instance: models.Model, data: TypedLength | None) -> None:
        setattr(instance, self.name, None if data is None else data.um)
        setattr(instance, self.text_name, "" if data is None else data.text)

    def value_from_object(self, obj: models.Model) -> TypedLength | None:
        um = super().value_from_object(obj)
        if um is None:
            return None
        return TypedLength(text=getattr(obj, self.text_name) if self.has_text else "", um=um)

    def value_to_string(self, obj: models.Model) -> str:
        """For serializers: the column alone, its text has a column of its own."""
        return str(super().value_from_object(obj))


class TypedText(models.CharField):
    """The text of the length beside it, with its unit, as typed. Empty where nobody typed it."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", 80)
        kwargs.setdefault("blank", True)
        kwargs.setdefault("default", "")
        kwargs.setdefault("editable", False)
        super().__init__(*args, **kwargs)
