"""Places on a piece as one says them: a numbered point, where a level meets an edge, so far along from there;
and lines by two of them, at a level, or read off the rulers.
"""

import json
from collections.abc import Iterator, Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge
from catalogue.tracing.calculation.sides import nearest
from fitting.pattern.calculation.working.girths import level_places
from fitting.pattern.calculation.working.marking import along_edge
from fitting.pattern.calculation.working.paths import Line
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.forms.step import BoxGroup, StepForm
from fitting.pattern.showing.pattern_drawn import level_label
from fitting.pattern.showing.pattern_places import numbered_points, origin

BY_PLACES, BY_RULERS = "places", "rulers"
ON_LINE_MM = 0.5  # levels of two pieces no farther apart than this are one line
ALONG = "Left empty: there. Along the outline towards the next number; with a minus, back."


class PlaceField(forms.ChoiceField):
    """A place on the outline of a piece: every one that has a name stands in the list."""

    def offer(self, pattern: Pattern) -> None:
        groups = [
            (piece.name, [(json.dumps([piece.name, *key], ensure_ascii=False), f"{piece.name}: {label}")
                          for key, label, _ in places_on(piece)])
            for piece in pattern.pieces
        ]  # fmt: skip
        self.choices = groups if self.required else [("", "–"), *groups]


def places_on(piece: PatternPiece) -> Iterator[tuple[tuple[str, Any], str, Point]]:
    """Its key, what it is called, and where it is."""
    nodes = piece.outline.nodes
    for number, at in enumerate(numbered_points(piece), start=1):
        starts = f", where the {nodes[at].edge} begins" if nodes[at].edge else ""
        yield ("point", at), f"point {number}{starts}", nodes[at].at
    for number, place in enumerate(level_places(piece)):
        label = f"{level_label(place.level)}, at the {place.edge or 'outline'}"
        yield ("level", number), label, piece.sides[place.place[0]].cubic.at(place.place[1])
    for name, edge in piece.edges.items():
        yield ("middle", name), f"middle of the {name}", along_edge(edge, edge.length / 2)
    notches = [mark for mark in piece.marks if mark.kind == "notch"]
    for number, mark in enumerate(notches, start=1):
        yield ("notch", number), f"notch {number}", mark.points[0]


def along(piece: PatternPiece, start: Point, by_mm: float) -> Point:
    """The point of the outline so far along it from another one, in the order in which it is drawn."""
    (index, t), _ = nearest(piece.sides, start)
    before_mm = sum(side.length for side in piece.sides[:index]) + piece.sides[index].split(t)[0].length
    whole = Edge(name="", sides=piece.outline.sides)
    return along_edge(whole, (before_mm + by_mm) % piece.outline.perimeter)


class WithPlaces(StepForm):
    """A step that asks for places on an outline."""

    def place(self, box: str) -> tuple[str, Point]:
        """The piece and the point that the box names, moved along by the box beside it."""
        name, *key = json.loads(self.cleaned_data[box])
        piece = self.pattern.piece(name)
        point = next(point for (kind, which), _, point in places_on(piece) if [kind, which] == key)
        by_mm = self.mm(f"{box}_along")
        return name, along(piece, point, by_mm) if by_mm else point

    def line_between(self, boxes: tuple[str, str], piece: str | None = None) -> tuple[str, Line]:
        """The piece, and the line from one place to the other. Raises Faults where they are not on one."""
        first, start = self.place(boxes[0])
        second, end = self.place(boxes[1])
        wrong = [(box, of) for box, of in zip(boxes, (first, second), strict=True) if of != (piece or first)]
        if wrong:
            sentence = "This place is on {}, and the line is to part {}: choose one that is on it."
            raise Faults([Fault(box, sentence.format(of, piece or first)) for box, of in wrong])
        return first, (start, end)


def along_field() -> LengthFormField:
    return LengthFormField(label="So far along from there", required=False, signed=True, help_text=ALONG)


class WithLine(WithPlaces):
    """A step at a line: at a level, from place to place, or by what the rulers say."""

    lies = forms.ChoiceField(label="Where the line lies")
    below = LengthFormField(
        label="So far below it", required=False, signed=True, help_text="With a minus: above it."
    )
    start = PlaceField(label="From", required=False)
    start_along = along_field()
    end = PlaceField(label="To", required=False)
    end_along = along_field()
    from_across = LengthFormField(label="First point: from the left", required=False, signed=True)
    from_down = LengthFormField(label="First point: from the top", required=False, signed=True)
    to_across = LengthFormField(label="Second point: from the left", required=False, signed=True)
    to_down = LengthFormField(label="Second point: from the top", required=False, signed=True)
    of_line = ("lies", "below", "start", "start_along", "end", "end_along",
               "from_across", "from_down", "to_across", "to_down")  # fmt: skip

    def add_rows(self) -> None:
        levels = dict.fromkeys(level for piece in self.pattern.pieces for level in piece.levels)
        self.fields["lies"].choices = [
            *((f"level {level}", f"at the {level_label(level)}") for level in levels),
            (BY_PLACES, "from one place of the outline to another"),
            (BY_RULERS, "by the rulers of the drawing"),
        ]

    def groups(self) -> Sequence[BoxGroup]:
        first = [self[name] for name in self.fields if name not in self.of_line]
        return (
            BoxGroup(boxes=[*first, self["lies"]]),
            BoxGroup(boxes=[self["below"]], css="by-level"),
            BoxGroup(
                boxes=[self[name] for name in self.of_line[2:6]],
                legend="From one place to another",
                css="by-places",
            ),
            BoxGroup(
                boxes=[self[name] for name in self.of_line[6:]],
                legend="By the rulers",
                css="by-rulers",
                says="Read off the rulers at the left and at the top of the piece’s drawing.",
            ),
        )

    def line(self, name: str) -> Line:
        """Where the piece of that name is to be parted. Raises Faults."""
        lies = self.cleaned_data["lies"]
        if lies == BY_PLACES:
            self._needed("start", "end")
            return self.line_between(("start", "end"), name)[1]
        piece = self.pattern.piece(name)
        if lies == BY_RULERS:
            self._needed("from_across", "from_down", "to_across", "to_down")
            across = [self.mm(f"{which}_across") or 0.0 for which in ("from", "to")]
            down = [self.mm(f"{which}_down") or 0.0 for which in ("from", "to")]
            start, end = (origin(piece) + complex(*at) for at in zip(across, down, strict=True))
            return start, end
        return self._at_level(piece, lies.removeprefix("level "))

    def _needed(self, *boxes: str) -> None:
        faults = [Fault(box, "The line needs this too.") for box in boxes if not self.cleaned_data.get(box)]
        if faults:
            raise Faults(faults)

    def _at_level(self, piece: PatternPiece, level: str) -> Line:
        path = piece.levels.get(level)
        if path is None:
            drawn = ", ".join(level_label(one) for one in piece.levels) or "none"
            sentence = f"{piece.name} has no {level_label(level)} drawn on it. Its levels: {drawn}."
            raise Faults([Fault("lies", sentence)])
        start, end = sorted((path[0], path[-1]), key=lambda point: point.real)
        down = 1j * chord(start, end) * (self.mm("below") or 0.0)
        return start + down, end + down

    def one_line(self, names: Sequence[str]) -> Line:
        """The line of several pieces. Raises Faults where their levels do not lie in one."""
        line = self.line(names[0])
        start, way = line[0], chord(*line)
        if self.cleaned_data["lies"].startswith("level "):
            for name in names[1:]:
                ends = self.line(name)
                if any(abs(((at - start) / way).imag) > ON_LINE_MM for at in ends):
                    sentence = (
                        f"On {name} it is not in one line with {names[0]}: take them one after the other."
                    )
                    raise Faults([Fault("pieces", sentence)])
        return line
