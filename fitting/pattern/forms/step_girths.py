"""What the two steps ask that bring the pattern to the wearer: how far levels go, and which edges give it."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField
from catalogue.lengths.models import TypedLength
from catalogue.lengths.showing import Writing, mm_for
from fitting.pattern.calculation.working.girths import Alter, LevelShare
from fitting.pattern.calculation.working.grading import Grade
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.forms.giving_edges import GivingEdge, crossing_edges, usual_parts
from fitting.pattern.forms.sheet import BoxRow, BoxTable
from fitting.pattern.forms.step import StepForm
from fitting.pattern.showing.pattern_drawn import level_label
from fitting.pattern.showing.pattern_page import line_rows

PARTS = "Each gives so many parts of the change at every level that crosses it; an empty one gives nothing."


class GirthsForm(StepForm):
    """Boxes for levels, filled from what is wanted; and for each edge that a level crosses, its parts."""

    boxes = {"girths": "", "changes": "", "seams": "", "lengths": ""}
    comes_filled = True
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
        self.giving = list(dict.fromkeys(edge for edges in self.crossing.values() for edge in edges))
        for edge in self.giving:
            field = forms.FloatField(required=False, min_value=0, max_value=1000)
            field.widget.attrs |= {"step": "any"}
            self._add(edge.box, field, f"parts: {edge}", parts.get(edge))

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
        shares = [BoxRow(label=str(edge), boxes=[self[edge.box]]) for edge in self.giving]
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
        parts = {edge: self.cleaned_data.get(edge.box) or 0.0 for edge in self.giving}
        found: dict[GivingEdge, float] = {}
        faults = []
        for level in levels:
            crossed = self.crossing.get(level, [])
            total = sum(parts[edge] for edge in crossed)
            if not total:
                sentence = f"Say which of the edges at the {level_label(level)} give its change."
                faults.append(Fault(self.box(level), sentence))
                continue
            for edge in crossed:
                share = parts[edge] / total
                if share and abs(found.setdefault(edge, share) - share) > 1e-9:
                    sentence = (
                        f"It would give another share at the {level_label(level)} than at the levels above:"
                        " change these levels one after the other."
                    )
                    faults.append(Fault(edge.box, sentence))
        if faults:
            raise Faults(faults)
        return tuple(
            LevelShare(piece=one.piece, edge=edge, share=share)
            for one, share in found.items()
            for edge in one.edges
        )

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
