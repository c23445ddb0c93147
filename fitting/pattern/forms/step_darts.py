"""What the steps ask that move a dart, make two of it, or leave it unsewn."""

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from catalogue.tracing.calculation.curve import Point
from fitting.pattern.calculation.working.darts import GatherDart, MoveDart, PartDart
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.forms.step import DartField, StepForm
from fitting.pattern.forms.step_places import PlaceField, WithPlaces, along_field


class DartForm(StepForm):
    """A step about one of the darts."""

    needs = "No piece has a dart with two straight legs."
    boxes = {"piece": "dart"}

    dart = DartField(label="Dart")

    @classmethod
    def can_be_taken(cls, pattern: Pattern) -> bool:
        return any(
            mark.kind == "dart" and len(mark.points) == 3 for piece in pattern.pieces for mark in piece.marks
        )


class ToAnotherPlace(DartForm, WithPlaces):
    to = PlaceField(label="To")
    to_along = along_field()

    def opens_at(self) -> tuple[str, int, Point]:
        """The piece, its dart, and where it opens. Raises Faults where that is on another piece."""
        piece, number = self.cleaned_data["dart"]
        of, to = self.place("to")
        if of != piece:
            raise Faults([Fault("to", f"This place is on {of}, and the dart on {piece}: choose one there.")])
        return piece, number, to


class MoveDartForm(ToAnotherPlace):
    step, title = "move dart", "Move a dart"
    says = "Closes a dart and opens it at another place, about the same point."

    short = LengthFormField(
        label="Its point stops short by", required=False, help_text="Left empty: it reaches as far as before."
    )

    def asked(self) -> MoveDart:
        piece, number, to = self.opens_at()
        return MoveDart(piece=piece, dart=number, to=to, short_mm=self.mm("short") or 0.0)


class PartDartForm(ToAnotherPlace):
    step, title = "part dart", "Make two darts of one"
    says = "Part of what a dart takes up opens at another place; both share its point."

    share = forms.FloatField(
        label="What part of it goes there", help_text="Between 0 and 1: 0.5 is half of it."
    )

    def asked(self) -> PartDart:
        piece, number, to = self.opens_at()
        return PartDart(piece=piece, dart=number, to=to, share=self.cleaned_data["share"])


class GatherDartForm(DartForm):
    step, title = "gather dart", "Leave a dart unsewn"
    says = "What it took up is eased or gathered into the seam; its level grows by as much."

    def asked(self) -> GatherDart:
        piece, number = self.cleaned_data["dart"]
        return GatherDart(piece=piece, dart=number)
