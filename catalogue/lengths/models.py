"""A length in a row: whole micrometres to sort and filter by, and the text as a person typed it.

    rule = LengthColumns("smallest division of your rule", default=TypedLength(text="1/16 in", um=1_588))

adds the columns `rule_um` and `rule_text`, which forms, queries and `.update()` name, and `rule`, which is
both at once, or None: `plate.rule.mm`, `plate.rule = typed`, `Plate(rule=typed)`. A length that is only
reckoned is a `LengthField` alone.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.db import models

from catalogue.lengths.calculation.lengths import parse_length, to_um


@dataclass(frozen=True, slots=True)
class TypedLength:
    """A length as a person typed it, its unit written out; `text` is empty where nobody typed it.

    `um` is the nearest micrometre.
    """

    text: str
    um: int

    @classmethod
    def read(cls, text: str, *, signed: bool = False) -> "TypedLength":
        return cls(text=text, um=to_um(parse_length(text, signed=signed)))

    @classmethod
    def of(cls, value: str | int | None, *, signed: bool = False) -> "TypedLength | None":
        """The length that an archive says: as typed text, or as whole micrometres."""
        if isinstance(value, str):
            return cls.read(value, signed=signed)
        return None if value is None else cls(text="", um=value)

    @property
    def exact_mm(self) -> Fraction:
        """From the text where there is one, else from the micrometres.

        1/16 in is 1587.5 µm: from those alone, half a micrometre would be lost before it is multiplied.
        """
        return parse_length(self.text, signed=True) if self.text else Fraction(self.um, 1000)

    @property
    def mm(self) -> float:
        return float(self.exact_mm)


NO_LENGTH = TypedLength(text="", um=0)


class LengthField(models.BigIntegerField):
    """Micrometres. Where `LengthColumns` made it, `length_name` is what its row calls the length."""

    length_name = ""

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
        return TypedLength(text=getattr(obj, self.text_name) if self.length_name else "", um=um)

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


class LengthColumns:
    """A length declared in a model. `text` is its second column, where that is not a plain `TypedText`.

    No field: one that adds another would add it twice to the models of a migration, which are made column by
    column. A default has both its figures: to read one takes the units, which no start of the program needs.
    """

    def __init__(
        self,
        *args: Any,
        default: TypedLength | None = None,
        text: models.CharField | None = None,
        **kwargs: Any,
    ) -> None:
        if default:
            kwargs["default"] = default.um
        self.um = LengthField(*args, **kwargs)
        self.text = text or TypedText(default=default.text if default else "")

    def contribute_to_class(self, model: type[models.Model], name: str) -> None:
        # A plate's `page` is a number in a book, and its `page_length` what is measured on it.
        columns = name.removesuffix("_length")
        self.um.length_name = name
        model.add_to_class(f"{columns}_um", self.um)
        model.add_to_class(f"{columns}_text", self.text)
        # A property, so that Django takes it in Model(…) and in the defaults of update_or_create too.
        setattr(model, name, property(self.um.value_from_object, self.um.save_form_data))
