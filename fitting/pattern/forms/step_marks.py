"""What steps ask of grain, notches and pleats, of shoulders and corners, and of a sleeve in its armhole."""

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.working.corners import MoveCorner, SlopeShoulder, TrueCorner
from fitting.pattern.calculation.working.marking import LayPleat, MatchNotches, SetGrain, TurnPitch, Wrap
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.calculation.working.sleeves import TrueSleeve
from fitting.pattern.calculation.working.taking_over import END, START, USUAL_BLEND_MM
from fitting.pattern.forms.step import EdgeField, PieceField, StepForm
from fitting.pattern.forms.step_places import WithLine

MOST_NOTCHES = 4


class SetGrainForm(WithLine):
    step, title = "set grain", "Set the grain"
    says = "The grain of a piece runs along this line."
    boxes = {"line": "lies"}

    piece = PieceField(label="Piece")

    field_order = ["piece"]

    def asked(self) -> SetGrain:
        piece = self.cleaned_data["piece"]
        return SetGrain(piece=piece, line=self.line(piece))


class LayPleatForm(WithLine):
    step, title = "lay pleat", "Lay a pleat"
    says = "Lets in the cloth for a pleat at a line, and marks its two folds."
    boxes = {"line": "lies"}

    piece = PieceField(label="Piece")
    depth = LengthFormField(
        label="Depth", help_text="Of the fold, as it lies: twice as much cloth is let in."
    )

    field_order = ["piece", "depth"]

    def asked(self) -> LayPleat:
        piece = self.cleaned_data["piece"]
        return LayPleat(piece=piece, line=self.line(piece), depth_mm=self.mm("depth") or 0.0)


class MatchNotchesForm(StepForm):
    step, title = "match notches", "Notch a seam"
    says = "Places notches on two edges that are sewn together, where they meet."
    boxes = {"pieces": "other", "edges": "other", "at": "at_1"}

    one = EdgeField(label="This edge")
    other = EdgeField(label="and this one")

    def add_rows(self) -> None:
        for at in range(1, MOST_NOTCHES + 1):
            self.fields[f"at_{at}"] = LengthFormField(
                label=f"Notch {at}: so far from the start of the second",
                required=at == 1,
                unit=self.reader.system,
            )

    def asked(self) -> MatchNotches:
        (one, edge), (other, their_edge) = self.cleaned_data["one"], self.cleaned_data["other"]
        at = [self.mm(f"at_{number}") for number in range(1, MOST_NOTCHES + 1)]
        return MatchNotches(
            pieces=(one, other), edges=(edge, their_edge), at_mm=tuple(mm for mm in at if mm is not None)
        )


class TurnPitchForm(StepForm):
    step, title = "turn pitch", "Turn the pitch of a sleeve"
    says = "Moves the notches along an edge: the sleeve hangs farther forward or back."
    boxes = {"piece": "edge"}

    edge = EdgeField(label="Edge with the notches")
    by = LengthFormField(label="By so much", signed=True, help_text="With a minus the other way.")

    def asked(self) -> TurnPitch:
        piece, edge = self.cleaned_data["edge"]
        return TurnPitch(piece=piece, edge=edge, by_mm=self.mm("by") or 0.0)


class TrueSleeveForm(StepForm):
    step, title = "true sleeve", "True a sleeve to its armhole"
    says = "Brings the head back to the ease that it had, part by part; the armhole stays."
    needs = "No sleeve is known with the armhole that it is set into."

    piece = PieceField(label="Piece that the sleeve’s head is drawn on")

    @classmethod
    def can_be_taken(cls, pattern: Pattern) -> bool:
        return bool(pattern.sleeves)

    def asked(self) -> TrueSleeve:
        return TrueSleeve(piece=self.cleaned_data["piece"])


class SlopeShoulderForm(StepForm):
    step, title = "slope shoulder", "Square or slope a shoulder"
    says = "Raises the shoulder at the armhole, or drops it; the armhole goes with it."
    boxes = {"piece": "shoulder"}

    shoulder = EdgeField(label="Shoulder")
    armhole = EdgeField(label="Armhole")
    by = LengthFormField(label="Raised by", signed=True, help_text="With a minus it is dropped.")

    def asked(self) -> SlopeShoulder:
        piece, shoulder = self.cleaned_data["shoulder"]
        of, armhole = self.cleaned_data["armhole"]
        if of != piece:
            raise Faults([Fault("armhole", f"This edge is of {of}, the shoulder of {piece}.")])
        return SlopeShoulder(piece=piece, shoulder=shoulder, armhole=armhole, by_mm=self.mm("by") or 0.0)


class MoveCornerForm(StepForm):
    step, title = "move corner", "Move a corner"
    says = (
        "Moves the point where two edges meet, and both follow: the fork of trousers, the point of a collar."
    )
    boxes = {"piece": "edge", "edges": "other", "across": "across", "down": "down"}

    edge = EdgeField(label="This edge")
    other = EdgeField(label="and the one that it meets")
    across = LengthFormField(
        label="Out of the piece by", required=False, signed=True, help_text="With a minus inwards."
    )
    down = LengthFormField(label="Down by", required=False, signed=True, help_text="With a minus upwards.")

    def asked(self) -> MoveCorner:
        piece, edges = self.of_one_piece(("edge", "other"))
        if len(edges) < 2:
            raise Faults([Fault("other", "A corner lies between two edges: choose another one.")])
        across, down = (self.mm(box) or 0.0 for box in ("across", "down"))
        if not across and not down:
            raise Faults([Fault("across", "Say how far it moves, across or down.")])
        return MoveCorner(piece=piece, edges=(edges[0], edges[1]), across_mm=across, down_mm=down)


class TrueCornerForm(StepForm):
    step, title = "true corner", "True a corner across a seam"
    says = "Where a seam is closed its neighbours run on into each other, as the neck does at the shoulder."
    boxes = {"pieces": "other", "edges": "other"}

    one = EdgeField(label="The seam’s edge")
    other = EdgeField(label="and the edge it is sewn to")
    end = forms.ChoiceField(
        label="At which end of the first",
        choices=[(START, "its start, as its points are numbered"), (END, "its end")],
    )
    blend = LengthFormField(label="Over", required=False, help_text="Left empty: 2 in (5.1 cm).")

    def asked(self) -> TrueCorner:
        (one, edge), (other, their_edge) = self.cleaned_data["one"], self.cleaned_data["other"]
        return TrueCorner(
            pieces=(one, other),
            edges=(edge, their_edge),
            end=self.cleaned_data["end"],
            blend_mm=self.mm("blend") or USUAL_BLEND_MM,
        )


class WrapForm(StepForm):
    step, title = "wrap", "Add a button stand or a wrap"
    says = "Cloth beyond the line on which it closes: it lies double there, and no girth changes."
    boxes = {"piece": "edge"}

    edge = EdgeField(label="Edge on which it closes")
    width = LengthFormField(label="Width")

    def asked(self) -> Wrap:
        piece, edge = self.cleaned_data["edge"]
        return Wrap(piece=piece, edge=edge, width_mm=self.mm("width") or 0.0)
