"""What the two steps ask that bring the pattern to the wearer: how far levels go, and which edges give it."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField
from catalogue.lengths.models import TypedLength
from catalogue.lengths.showing import Writing, mm_for
from fitting.pattern.calculation.working.girths import Alter, LevelShare, level_places
from fitting.pattern.calculation.working.grading import Grade
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.forms.sheet import BoxRow, BoxTable
from fitting.pattern.forms.step import StepForm
from fitting.pattern.loading.alterable_seams import NEVER, NEVER_OF_LIMB, OF_LIMB, OF_TRUNK
from fitting.pattern.showing.pattern_drawn import level_label
from fitting.pattern.showing.pattern_page import line_rows

PARTS = (
    "Each edge gives so many parts of the change at every level that it crosses; an empty one gives nothing."
)
Edge = tuple[str, str]


class GirthsForm(StepForm):
    """Boxes for levels, filled from what is wanted; and for each edge that a level crosses, its parts."""

    boxes = {"girths": "", "changes": "", "seams": "", "lengths": ""}
    needs = "No piece has a level drawn on it."

    @classmethod
    def can_be_taken(cls, pattern: Pattern) -> bool:
        return bool(pattern.girths())

    def add_rows(self) -> None:
        writing = Writing(system=self.reader.system, denominator=self.reader.denominator)
        rows = line_rows(self.pattern, self.wanted, writing)
        self.lines = {row.line: row for row in rows if self.asks_for(row)}
        self.crossing = crossing_edges(self.pattern)
        for line, row in self.lines.items():
            self._add(self.box(line), LengthFormField(required=False, signed=True), row.label, self.fill(row))
        parts = usual_parts(self.pattern, self.crossing)
        for edge in dict.fromkeys(edge for edges in self.crossing.values() for edge in edges):
            field = forms.FloatField(required=False, min_value=0, max_value=1000)
            field.widget.attrs |= {"step": "any"}
            self._add(part_box(edge), field, f"parts: {edge[1]} of {edge[0]}", parts.get(edge))

    def _add(self, name: str, field: forms.Field, label: str, initial: Any) -> None:
        field.label = label
        field.widget.attrs |= {"aria-label": label}
        if isinstance(field, LengthFormField):
            field.unit = self.reader.system
            field.widget.attrs["placeholder"] = self.reader.system
        self.fields[name] = field
        if isinstance(initial, float) and isinstance(field, LengthFormField):
            initial = TypedLength(text="", um=round(1000 * initial))
        self.initial.setdefault(name, initial)

    def box(self, line: str) -> str:
        return f"to {line}"

    def asks_for(self, row: Any) -> bool:
        return True

    def fill(self, row: Any) -> float | None:
        raise NotImplementedError

    def told(self, *, lengths: bool = False) -> dict[str, float]:
        """What was typed, by its line."""
        found = {line: self.mm(self.box(line)) for line in self.lines if is_length(line) == lengths}
        return {line: mm for line, mm in found.items() if mm is not None}

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=self._line_words(row), boxes=[self[self.box(line)]])
            for line, row in self.lines.items()
        ]
        edges = dict.fromkeys(edge for found in self.crossing.values() for edge in found)
        shares = [BoxRow(label=f"{edge[0]}: {edge[1]}", boxes=[self[part_box(edge)]]) for edge in edges]
        return (
            BoxTable(caption=self.asks, heads=("now", self.head), rows=rows, says=self.fills),
            BoxTable(caption="Which edges give it", heads=("edge", "parts"), rows=shares, says=PARTS),
        )

    asks = fills = head = ""

    def _line_words(self, row: Any) -> str:
        now = f"{row.label}: {mm_for(row.now_mm, self.reader)}"
        return f"{now}, wanted {mm_for(row.wanted.mm, self.reader)}" if row.wanted else now

    def shares(self, levels: Mapping[str, float]) -> tuple[LevelShare, ...]:
        """Of the levels that are to change. Raises Faults where an edge would give two shares."""
        parts = {edge: self.cleaned_data.get(part_box(edge)) or 0.0 for edge in self._edges_at(levels)}
        found: dict[Edge, float] = {}
        faults = []
        for level in levels:
            total = sum(parts[edge] for edge in self.crossing.get(level, ()))
            if not total:
                sentence = f"Say which of the edges at the {level_label(level)} give its change."
                faults.append(Fault(self.box(level), sentence))
                continue
            for edge in self.crossing[level]:
                share = parts[edge] / total
                if share and abs(found.setdefault(edge, share) - share) > 1e-9:
                    sentence = (
                        f"The {edge[1]} of {edge[0]} would give another share at the {level_label(level)}"
                        " than at the levels above: change these levels one after the other."
                    )
                    faults.append(Fault(part_box(edge), sentence))
        if faults:
            raise Faults(faults)
        return tuple(LevelShare(piece=one, edge=edge, share=share) for (one, edge), share in found.items())

    def _edges_at(self, levels: Mapping[str, float]) -> list[Edge]:
        return list(dict.fromkeys(edge for level in levels for edge in self.crossing.get(level, ())))

    def _box_of(self, where: str) -> str | None:
        line = where.partition(".")[2]
        return self.box(line) if line in self.lines else super()._box_of(where)


class AlterForm(GirthsForm):
    step, title = "alter", "Alter to the wearer"
    says = "Adds or takes off at levels, along the edges that may give it; all other levels stay."
    asks, head = "What to add at each level", "to add"
    fills = (
        "Filled where the pattern does not fit as wanted. With a minus it is taken off; left empty: it stays."
    )

    def asks_for(self, row: Any) -> bool:
        return not is_length(row.line)

    def fill(self, row: Any) -> float | None:
        return -row.difference_mm if row.is_off else None

    def asked(self) -> Alter:
        changes = self.told()
        if not changes:
            raise Faults([Fault("", "Say at one level at least what to add or to take off.")])
        return Alter(changes_mm=changes, seams=self.shares(changes))


class GradeForm(GirthsForm):
    step, title = "grade", "Grade to the wearer"
    says = "Brings every level and every length to what is wanted, and trues the seams again."
    asks, head = "What each line is to measure", "to be"
    fills = "Filled with what is wanted. Left empty: it stays, or follows its neighbours."

    def fill(self, row: Any) -> float | None:
        return row.wanted.mm if row.wanted else None

    def asked(self) -> Grade:
        girths = self.told()
        if not girths:
            raise Faults([Fault("", "Say of one level at least what it is to measure.")])
        lengths = self.told(lengths=True)
        return Grade(girths_mm=girths, lengths_mm=lengths, seams=self.shares(girths))


def is_length(line: str) -> bool:
    return line in LINES and LINES[line].kind == "length"


def part_box(edge: Edge) -> str:
    return f"parts {edge[0]}: {edge[1]}"


def crossing_edges(pattern: Pattern) -> dict[str, list[Edge]]:
    """By level, the edges that it crosses."""
    found: dict[str, list[Edge]] = {}
    for piece in pattern.pieces:
        if piece.cloth not in pattern.counted:
            continue
        for place in level_places(piece):
            if place.edge and (piece.name, place.edge) not in found.setdefault(place.level, []):
                found[place.level].append((piece.name, place.edge))
    return found


def usual_parts(pattern: Pattern, crossing: Mapping[str, Sequence[Edge]]) -> dict[Edge, int]:
    """One part for each edge of the seams that take a change first, by level. Common practice, no source."""
    sewn = {pair for seam in pattern.seams for pair in zip(seam.pieces, seam.edges, strict=True)}
    found: dict[Edge, int] = {}
    for level, edges in crossing.items():
        is_limb = level in pattern.of_one_limb
        never, first = (NEVER_OF_LIMB, OF_LIMB) if is_limb else (NEVER, OF_TRUNK)
        may = [edge for edge in edges if edge in sewn and not _is_named(edge[1], never)]
        may = may or [edge for edge in edges if edge in sewn or _is_named(edge[1], first)]
        rank = next((word for word in first if any(word in edge[1] for edge in may)), "")
        found |= {edge: 1 for edge in may if rank in edge[1]}
    return found


def _is_named(edge: str, words: Sequence[str]) -> bool:
    return any(word in edge for word in words)
