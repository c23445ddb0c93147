"""An SVG to read outlines from, and what each of them is to become."""

from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import scale_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.outlines_import import ChosenOutline, levels_to_add
from catalogue.tracing.calculation.tracing import LevelLine
from catalogue.tracing.exchange.svg_lines import MM
from catalogue.tracing.exchange.svg_outlines import LONGEST_NAME, ReadDrawing, read_outlines
from catalogue.workroom.reader.safe_xml import XmlRefused

MOST_BYTES = 2 * 1024 * 1024
FAULTS_SHOWN = 100
SAID = "said"
UNITS = [(SAID, "what the file says"), *((unit, f"1 {unit}") for unit in MM if unit not in {"pc", "q"})]
SIZES = [("full", "at full size"), ("scale", "at the scale of the plate")]


class OutlinesFileForm(forms.Form):
    """`drawing` is what was read, once the form is valid; `text` goes along until it is chosen from."""

    file = forms.FileField(
        label="SVG drawing",
        help_text="One that was exported here comes back as it was; of any other the closed lines are read: "
        "paths, polygons, rectangles, circles.",
    )
    unit = forms.ChoiceField(label="One unit of the drawing is", choices=UNITS)
    size = forms.ChoiceField(label="It is drawn", choices=SIZES)
    text = forms.CharField(required=False, strip=False, widget=forms.HiddenInput)

    drawing: ReadDrawing

    def __init__(self, *args: Any, plate: Plate, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.plate = plate
        self.fields["file"].required = not self.data.get("text")
        self.fields["file"].widget.attrs["accept"] = ".svg,image/svg+xml"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if self.errors:
            return cleaned
        text = text_of_svg(cleaned["file"]) if cleaned.get("file") else cleaned.get("text", "")
        unit = "" if cleaned["unit"] == SAID else cleaned["unit"]
        try:
            scale = scale_of(self.plate)
            times = (scale.across, scale.along) if cleaned["size"] == "scale" else (1.0, 1.0)
            self.drawing = read_outlines(text, unit=unit, times=times)
        except ScaleNotUnderstood:
            raise forms.ValidationError("Say the scale of the plate first.") from None
        except XmlRefused as refused:
            raise forms.ValidationError(refused.sentence) from refused
        except Faults as faulty:
            raise forms.ValidationError([str(fault) for fault in faulty.faults[:FAULTS_SHOWN]]) from faulty
        cleaned["text"] = text
        return cleaned


def text_of_svg(file: Any) -> str:
    """Raises ValidationError where it is too large, or no text."""
    if file.size > MOST_BYTES:
        raise forms.ValidationError(f"This file is over {MOST_BYTES >> 20} MB: send it without its pictures.")
    try:
        return file.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise forms.ValidationError("This file is not text in UTF-8.") from None


class OutlinesChoiceForm(forms.Form):
    """For each outline read: which piece it is to be. `chosen` and `levels` are to take, once it is valid."""

    as_of = forms.CharField(widget=forms.HiddenInput)
    with_levels = forms.BooleanField(label="Take the level lines too", required=False, initial=True)

    def __init__(self, *args: Any, plate: Plate, drawing: ReadDrawing, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.drawing, self.pieces = drawing, list(plate.pieces.select_related("traced"))
        self.new_levels = levels_to_add(plate, drawing.levels)
        self.level_names = list(dict.fromkeys(LINES[level.line].label for level in self.new_levels))
        choices = [("new", "a new piece"), ("", "left out")]
        choices += [(str(piece.pk), _in_place_of(piece)) for piece in self.pieces]
        free = {str(piece.pk): piece for piece in self.pieces}
        for number, read in enumerate(drawing.pieces):
            usual = next((key for key, piece in free.items() if _is_of(read, piece)), "new")
            free.pop(usual, None)
            initial = {"to": "" if read.faults else usual, "name": read.name}
            for box, field in _boxes(number, choices, initial).items():
                field.widget.attrs["aria-label"] = field.label
                self.fields[box] = field
        if not self.new_levels:
            del self.fields["with_levels"]

    def rows(self) -> list[dict[str, Any]]:
        """Each outline with its two boxes."""
        return [
            {"read": read, "to": self[f"to{number}"], "name": self[f"name{number}"]}
            for number, read in enumerate(self.drawing.pieces)
        ]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        pieces = {str(piece.pk): piece for piece in self.pieces}
        self.chosen: list[ChosenOutline] = []
        taken: set[str] = set()
        for number, read in enumerate(self.drawing.pieces):
            to, name = cleaned.get(f"to{number}"), cleaned.get(f"name{number}")
            if not to:
                continue
            for fault in read.faults:
                self.add_error(f"to{number}", fault.sentence)
            if to in taken and to != "new":
                self.add_error(f"to{number}", f"“{pieces[to]}” is given two outlines.")
            if to == "new" and not name:
                self.add_error(f"name{number}", "A new piece needs a name.")
            taken.add(to)
            if read.shape:
                one = ChosenOutline(shape=read.shape, piece=pieces.get(to), name=name or "", facts=read.facts)
                self.chosen.append(one)
        if not taken and not self.errors:
            raise forms.ValidationError("Every outline is left out: choose one at least.")
        return cleaned

    @property
    def levels(self) -> list[LevelLine]:
        return self.new_levels if self.cleaned_data.get("with_levels") else []


def _boxes(number: int, choices: list[tuple[str, str]], initial: dict[str, str]) -> dict[str, forms.Field]:
    """The two boxes of one outline, by their names."""
    return {
        f"to{number}": forms.ChoiceField(
            label=f"Outline {number + 1} is to be", choices=choices, required=False, initial=initial["to"]
        ),
        f"name{number}": forms.CharField(
            label=f"Outline {number + 1}, name of a new piece",
            max_length=LONGEST_NAME,
            required=False,
            initial=initial["name"],
        ),
    }


def _in_place_of(piece: Piece) -> str:
    cloth = "" if piece.cloth == Piece.ClothRole.OUTER else f", {piece.cloth}"
    standing = ", in place of the one traced" if hasattr(piece, "traced") else ""
    return f"the outline of “{piece}”{cloth}{standing}"


def _is_of(read: Any, piece: Piece) -> bool:
    """Whether the outline is called as the piece is, and is of its cloth where the file says one."""
    cloth = read.facts.get("cloth", piece.cloth)
    return read.name.casefold() == piece.name.casefold() and cloth == piece.cloth
