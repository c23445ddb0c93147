"""What steps ask that part a piece at a line, join, turn or copy it."""

from django import forms

from catalogue.lengths.forms import LengthFormField
from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.curve import chord
from fitting.pattern.calculation.working.joining import Cut, Join
from fitting.pattern.calculation.working.marking import LineWith
from fitting.pattern.calculation.working.mirroring import Copy, Mirror, Sides, Unfold
from fitting.pattern.calculation.working.parting import FullBust, Lengthen, Spread, Turn
from fitting.pattern.forms.step import (
    EdgeField,
    NameField,
    PieceField,
    PiecesField,
    StepForm,
)
from fitting.pattern.forms.step_places import PlaceField, WithLine, WithPlaces, along_field
from fitting.pattern.showing.pattern_drawn import OUTER


class LengthenForm(WithLine):
    step, title = "lengthen", "Lengthen or shorten"
    says = "Parts one or several pieces at a line, and sets the parts so far from each other."
    boxes = {"piece": "pieces", "line": "lies"}

    pieces = PiecesField(label="Pieces")
    by = LengthFormField(label="By so much", signed=True, help_text="With a minus it is shortened.")

    field_order = ["pieces", "by"]

    def asked(self) -> Lengthen:
        names = tuple(self.cleaned_data["pieces"])
        return Lengthen(pieces=names, line=self.one_line(names), by_mm=self.mm("by") or 0.0)


class SpreadForm(WithLine):
    step, title = "spread", "Slash and spread, or lap"
    says = "Slashes one piece along a line and spreads it evenly; with a minus it is lapped."
    boxes = {"cut": "lies"}

    piece = PieceField(label="Piece")
    by = LengthFormField(label="By so much", signed=True, help_text="With a minus it is lapped.")

    field_order = ["piece", "by"]

    def asked(self) -> Spread:
        piece = self.cleaned_data["piece"]
        return Spread(piece=piece, cut=self.line(piece), by_mm=self.mm("by") or 0.0)


class TurnForm(WithPlaces):
    step, title = "turn", "Slash to a hinge and open"
    says = "Cuts from one place of the outline to another, and opens it there like a fan."
    boxes = {"piece": "opens", "cut": "opens"}

    opens = PlaceField(label="It opens at")
    opens_along = along_field()
    hinge = PlaceField(label="It hinges at")
    hinge_along = along_field()
    by = LengthFormField(
        label="Opened by", signed=True, help_text="Straight across the opening. With a minus it is lapped."
    )

    def asked(self) -> Turn:
        piece, cut = self.line_between(("opens", "hinge"))
        return Turn(piece=piece, cut=cut, by_mm=self.mm("by") or 0.0)


class FullBustForm(WithPlaces):
    step, title = "full bust", "Give cloth over a full bust"
    says = "Cuts from an edge over the bust point to a hinge, and opens it; below the point it is a dart."
    boxes = {"piece": "opens", "cut": "opens", "point": "up"}

    opens = PlaceField(label="It opens at", help_text="At the waist or the side, where the dart is to begin.")
    opens_along = along_field()
    hinge = PlaceField(label="It hinges at", help_text="At the armhole or the shoulder.")
    hinge_along = along_field()
    up = LengthFormField(label="The bust point lies so far along the cut", help_text="From where it opens.")
    by = LengthFormField(label="Opened at the bust point by")

    def asked(self) -> FullBust:
        piece, cut = self.line_between(("opens", "hinge"))
        point = cut[0] + chord(*cut) * (self.mm("up") or 0.0)
        return FullBust(piece=piece, cut=cut, point=point, by_mm=self.mm("by") or 0.0)


class CutForm(WithLine):
    step, title = "cut", "Cut a piece in two"
    says = "Cuts a piece along a line; both parts keep their levels and marks."
    boxes = {"along": "lies", "names": "left"}

    piece = PieceField(label="Piece")
    left = NameField(
        label="What lies on the left of the line, or above it",
        help_text="Left empty, both are called as the piece with a number.",
    )
    right = NameField(label="What lies on the right of it, or below")

    field_order = ["piece", "left", "right"]

    def asked(self) -> Cut:
        piece = self.cleaned_data["piece"]
        names = (self.free_name("left", f"{piece} 1"), self.free_name("right", f"{piece} 2"))
        return Cut(piece=piece, along=self.line(piece), names=names)


class JoinPiecesForm(StepForm):
    step, title = "join", "Join two pieces"
    says = "Lays one edge along another and makes one piece of two; the seam is gone."
    boxes = {"pieces": "other", "edges": "other"}

    one = EdgeField(label="This edge stays where it is")
    other = EdgeField(label="This one is laid along it")
    name = NameField(label="Name of the new piece", help_text="Left empty: that of both.")

    def asked(self) -> Join:
        (one, edge), (other, their_edge) = self.cleaned_data["one"], self.cleaned_data["other"]
        name = self.free_name("name", f"{one} and {other}")
        return Join(pieces=(one, other), edges=(edge, their_edge), name=name)


class MirrorForm(StepForm):
    step, title = "mirror", "Turn a piece over"
    says = "Left becomes right."

    piece = PieceField(label="Piece")

    def asked(self) -> Mirror:
        return Mirror(piece=self.cleaned_data["piece"])


class UnfoldForm(StepForm):
    step, title = "unfold", "Unfold at a fold"
    says = "Makes a whole of a half that is drawn to a straight fold."
    boxes = {"piece": "edge"}

    edge = EdgeField(label="The fold")

    def asked(self) -> Unfold:
        piece, edge = self.cleaned_data["edge"]
        return Unfold(piece=piece, edge=edge)


class CopyForm(StepForm):
    step, title = "copy", "Copy a piece"
    says = "For a lining or an interlining, or to try something on the copy."

    piece = PieceField(label="Piece")
    name = NameField(label="Name of the copy", help_text="Left empty: that of the piece with a number.")

    def asked(self) -> Copy:
        piece = self.cleaned_data["piece"]
        return Copy(piece=piece, name=self.free_name("name", piece))


class LineWithForm(StepForm):
    step, title = "line with", "Cut it of another cloth too"
    says = "The same piece again for a lining or an interlining; it goes with no girth."

    piece = PieceField(label="Piece")
    cloth = forms.ChoiceField(label="Of", choices=[one for one in Piece.ClothRole.choices if one[0] != OUTER])
    name = NameField(label="Name of the new piece", help_text="Left empty: that of the piece with its cloth.")

    def asked(self) -> LineWith:
        piece, cloth = self.cleaned_data["piece"], self.cleaned_data["cloth"]
        return LineWith(piece=piece, name=self.free_name("name", f"{piece}, {cloth}"), cloth=cloth)


class SidesForm(StepForm):
    step, title = "sides", "Make left and right apart"
    says = "Makes two pieces of a mirrored pair, so that left and right can differ."
    boxes = {"names": "left"}

    piece = PieceField(label="Piece")
    left = NameField(label="Name of the left", help_text="Left empty: that of the piece with “left”.")
    right = NameField(label="Name of the right")

    def asked(self) -> Sides:
        piece = self.cleaned_data["piece"]
        names = (self.free_name("left", f"{piece} left"), self.free_name("right", f"{piece} right"))
        return Sides(piece=piece, names=names)
