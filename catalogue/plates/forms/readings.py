"""The readings of a whole plate in one table: a row for each piece, a column for each level and length."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms

from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.lengths.forms import LengthFormField
from catalogue.lengths.models import TypedLength
from catalogue.plates.actions import ReadingSheet, TypedFastening, TypedPiece, TypedReading
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.calculation import list_for
from catalogue.workroom.forms.as_of import OtherChange, stamps_of, take_in
from catalogue.workroom.models import User

MOST_TIMES_CUT = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    line: Line
    reading: forms.BoundField
    take_up: forms.BoundField
    plain: forms.BoundField | None
    crossed: forms.BoundField | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceBoxes:
    piece: Piece
    cut: forms.BoundField
    fold: forms.BoundField
    edges: forms.BoundField
    cells: list[Cell]


class ReadingsForm(forms.Form):
    """`lines` are the columns; `sheet()` gives what was typed, once the form is valid."""

    is_half = forms.BooleanField(
        required=False,
        label="Half the garment, centre front to centre back",
        help_text="Every piece is cut twice, unless its row says otherwise. The tick doubles those cut once.",
    )
    sixteenths = forms.BooleanField(
        required=False,
        label="Count in sixteenths",
        help_text="A bare whole number is then so many sixteenths of an inch on the page: 19 is 1 3/16 in.",
    )
    more_line = forms.ChoiceField(required=False, label="Another level or length")
    as_of = forms.CharField(required=False, widget=forms.HiddenInput)

    meanwhile: OtherChange | None = None

    def __init__(
        self, data: Any = None, *, plate: Plate, lines: Sequence[Line], user: User, sixteenths: bool = False
    ) -> None:
        super().__init__(data, initial={"is_half": plate.is_half, "sixteenths": sixteenths})
        self.initial["as_of"] = lambda: f"{plate.changed_at.isoformat()}|{stamps_of(self)}"
        self.plate, self.lines, self.user, self.unit = plate, lines, user, user.system
        self.counts_sixteenths = bool(data.get("sixteenths")) if data is not None else sixteenths
        # A piece that another person added meanwhile has no boxes here: it is not to be emptied by them.
        self.pieces = [piece for piece in plate.pieces.all() if data is None or f"cut-{piece.pk}" in data]
        self.fields["more_line"].choices = [
            ("", "choose …"),
            *((key, line.label) for key, line in LINES.items() if line not in lines),
        ]
        self.levels = [line for line in lines if line.kind == "girth"]
        for piece in self.pieces:
            self._add_piece(piece)
        for line in [None, *self.levels]:
            self._add_fastening(line)

    def _add_piece(self, piece: Piece) -> None:
        row = f"{piece.pk}"
        self.fields[f"cut-{row}"] = _count(f"{piece}, times cut", piece.cut, 1, MOST_TIMES_CUT)
        self.fields[f"fold-{row}"] = forms.BooleanField(
            required=False,
            initial=piece.on_fold,
            widget=forms.CheckboxInput(attrs={"aria-label": f"{piece}, drawn to a fold"}),
        )
        edges = _count(f"{piece}, edges with allowance", piece.edges, 0, 8, required=False)
        edges.widget.attrs["placeholder"] = "1" if piece.on_fold else "2"
        self.fields[f"edges-{row}"] = edges
        held = {reading.line: reading for reading in piece.readings.all()}
        for line in self.lines:
            reading = held.get(line.key)
            for box, label in (("reading", ""), ("take_up", ", taken up by darts, pleats or tucks")):
                self.fields[_name(box, row, line)] = self._length(
                    f"{piece}, {line.label}{label}", getattr(reading, box, None)
                )
            if self.plate.is_draft:
                plain = forms.BooleanField(
                    required=False, initial=bool(reading and reading.is_plain), label=f"{piece}, {line.label}"
                )
                self.fields[_name("plain", row, line)] = plain
            if line.kind == "length":
                crossed = reading.crossed_ends if reading else 0
                self.fields[_name("crossed", row, line)] = _count(
                    f"{piece}, {line.label}, ends that cross a seam", crossed, 0, 2, required=False
                )

    def _add_fastening(self, line: Line | None) -> None:
        held = next(
            (row for row in self.plate.fastenings.all() if row.line == (line.key if line else "")), None
        )
        for box, label in (("overlap", "overlap"), ("gap", "lacing gap")):
            where = f"at the {line.label}" if line else "at every level"
            # Full size, so a bare number is never in sixteenths.
            self.fields[_name(box, "all", line)] = self._length(
                f"{label} {where}", getattr(held, box, None), page=False
            )

    def _length(self, label: str, held: TypedLength | None, *, page: bool = True) -> LengthFormField:
        field = LengthFormField(
            required=False,
            label=label,
            unit=self.unit,
            sixteenths=page and self.counts_sixteenths,
            initial=held,
        )
        field.widget.attrs |= {"aria-label": label, "size": 7}
        return field

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        read_at, _, stamps = cleaned.get("as_of", "").partition("|")
        if read_at not in ("", self.plate.changed_at.isoformat()):
            # The typed boxes stay; a second save with the new stamps writes them knowingly.
            fresh = type(self)(plate=self.plate, lines=self.lines, user=self.user)
            boxes = take_in(fresh, self, stamps)
            self.meanwhile = OtherChange(boxes=boxes, at=self.plate.changed_at, by=self.plate.changed_by)
            self.data["as_of"] = fresh["as_of"].initial
            raise forms.ValidationError(
                "These readings were changed on another screen while you typed. Yours are still in the "
                "boxes, not kept yet: compare, then keep them."
            )
        for piece in self.pieces:
            for line in self.lines:
                self._check_cell(cleaned, str(piece.pk), line)
        return cleaned

    def _check_cell(self, cleaned: dict[str, Any], row: str, line: Line) -> None:
        name, take_up_name = _name("reading", row, line), _name("take_up", row, line)
        if name in self.errors or take_up_name in self.errors:
            return
        reading, take_up = cleaned.get(name), cleaned.get(take_up_name)
        if reading is not None and reading.um <= 0:
            self.add_error(
                name, "A reading is more than nothing: leave the box empty where the piece is not."
            )
        elif take_up is not None and reading is None:
            self.add_error(
                take_up_name, "This takes something up, but nothing is read there: type the reading."
            )
        elif take_up is not None and take_up.um >= reading.um:
            self.add_error(take_up_name, "Darts, pleats and tucks take up less than the whole reading.")

    @property
    def has_more(self) -> bool:
        """Whether something stands in the boxes that are folded away at first."""
        folded = [name for name in self.fields if name.startswith(("take_up-", "edges-", "crossed-"))]
        return any(self[name].value() not in (None, "", 0, "0") for name in folded)

    def rows(self) -> Iterator[PieceBoxes]:
        for piece in self.pieces:
            row = str(piece.pk)
            yield PieceBoxes(
                piece=piece,
                cut=self[f"cut-{row}"],
                fold=self[f"fold-{row}"],
                edges=self[f"edges-{row}"],
                cells=[self._cell(row, line) for line in self.lines],
            )

    def _cell(self, row: str, line: Line) -> Cell:
        return Cell(
            line=line,
            reading=self[_name("reading", row, line)],
            take_up=self[_name("take_up", row, line)],
            plain=self[_name("plain", row, line)] if self.plate.is_draft else None,
            crossed=self[_name("crossed", row, line)] if line.kind == "length" else None,
        )

    def fastening_rows(self) -> Iterator[tuple[str, forms.BoundField, list[forms.BoundField | None]]]:
        """Label, the box for every level, and a box under each column (None under a length)."""
        for box, label in (("overlap", "Overlap at the fastening"), ("gap", "Lacing gap")):
            boxes = [self[_name(box, "all", line)] if line.kind == "girth" else None for line in self.lines]
            yield label, self[_name(box, "all", None)], boxes

    def sheet(self) -> ReadingSheet:
        typed = self.cleaned_data
        return ReadingSheet(
            is_half=typed["is_half"],
            pieces={
                piece.pk: TypedPiece(
                    cut=typed[f"cut-{piece.pk}"],
                    on_fold=typed[f"fold-{piece.pk}"],
                    edges=typed[f"edges-{piece.pk}"],
                )
                for piece in self.pieces
            },
            readings={
                (piece.pk, line.key): TypedReading(
                    reading=typed[_name("reading", str(piece.pk), line)],
                    take_up=typed[_name("take_up", str(piece.pk), line)],
                    is_plain=typed.get(_name("plain", str(piece.pk), line)),
                    crossed_ends=typed.get(_name("crossed", str(piece.pk), line)) or 0,
                )
                for piece in self.pieces
                for line in self.lines
            },
            fastenings={
                line.key if line else "": TypedFastening(
                    overlap=typed[_name("overlap", "all", line)], gap=typed[_name("gap", "all", line)]
                )
                for line in [None, *self.levels]
            },
        )


def columns_for(plate: Plate, chosen: Iterable[str]) -> list[Line]:
    """The table's columns: the lines read so far and those chosen; at first, the usual ones of its kind."""
    wanted = {reading.line for piece in plate.pieces.all() for reading in piece.readings.all()}
    wanted |= {key for key in chosen if key in LINES}
    if not wanted:
        usual = list_for(plate.reference.kind) or list_for(plate.reference.name)
        wanted = set(usual.lines if usual else ("bust", "waist"))
    return [line for line in LINES.values() if line.key in wanted]


def _name(box: str, row: str, line: Line | None) -> str:
    return f"{box}-{row}-{line.key.replace(' ', '_') if line else 'every'}"


def _count(
    label: str, initial: int | None, least: int, most: int, *, required: bool = True
) -> forms.IntegerField:
    return forms.IntegerField(
        label=label,
        initial=initial,
        min_value=least,
        max_value=most,
        required=required,
        widget=forms.NumberInput(attrs={"aria-label": label, "class": "count"}),
    )
