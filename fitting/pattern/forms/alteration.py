"""The boxes of the alteration plan: each level, each seam that may be altered."""

from collections.abc import Iterator, Sequence
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.lengths.forms import LengthFormField
from fitting.comparing.calculation.verdict import Verdict
from fitting.pattern.calculation.alteration import AlterableSeam, LevelChange
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet
from fitting.pattern.loading.alterable_seams import seams_to_alter
from fitting.pattern.loading.facts import PlateDifference, SeamFacts
from fitting.pattern.showing.alteration import alteration_sheet
from fitting.pattern.showing.altered_pieces import PlannedLevel

SEAM_ROWS, FILLED_ROWS = 4, 2
# Where a level lies below the top of its seams, until the maker says; common practice, no source.
FIRST_HEIGHTS_MM = {
    "high bust": 0.0, "bust": 25.4, "under bust": 101.6, "waist": 203.2, "hip": 381.0,
    "upper arm": 50.8, "elbow": 228.6, "wrist": 457.2, "hand": 508.0,
    "thigh": 25.4, "knee": 304.8, "calf": 431.8, "ankle": 635.0,
}  # fmt: skip


class AlterationSheet(WorkSheet):
    most_each = LengthFormField(label="The most one edge should take")
    usual = LengthFormField(label="Your usual seam allowance")

    def add_rows(self) -> None:
        compared = [line for line in LINES.values() if line.key in self.known.off]
        girths = [line for line in compared if line.kind == "girth"]
        self.levels = girths or [LINES["bust"], LINES["waist"]]
        for line in self.levels:
            self.add_box(f"change {line.key}", ask.Length("", f"change at the {line.label}", is_signed=True))
            self.add_box(f"doubt {line.key}", ask.Length("", f"its doubt at the {line.label}"))
            self.add_box(
                f"height {line.key}",
                ask.Length("", f"how far the {line.label} lies below the top of the seam"),
            )
        self.lengths = [
            line for line in LINES.values() if line.key in self.known.off and line.kind == "length"
        ]
        for line in self.lengths:
            self.add_box(f"change {line.key}", ask.Length("", f"change of the {line.label}", is_signed=True))
        for at in range(1, SEAM_ROWS + 1):
            self.add_box(f"seam {at}", ask.Text("", f"seam {at}", default=""))
            self.add_box(f"pieces {at}", ask.Text("", f"pieces that meet in seam {at}", default=""))
            self.add_box(
                f"times {at}", ask.Whole("", f"how often seam {at} comes round the body", least=1, most=12)
            )
            self.add_box(f"share {at}", ask.Whole("", f"share of seam {at} in percent", least=0, most=100))

    def fill(self) -> dict[str, Any]:
        filled: dict[str, Any] = {"most_each": self.known.per_edge_mm, "usual": self.known.usual_mm}
        trunk, limb = seams_to_alter(self.known)
        for number, line in enumerate(self.levels):
            off, seams = self.known.off.get(line.key), limb if line.has_sides else trunk
            if off and off.wants_altering and (seams or not line.has_sides):
                filled[f"change {line.key}"] = -off.difference_mm
            filled[f"doubt {line.key}"] = off.u_mm if off else None
            guess_mm = FIRST_HEIGHTS_MM.get(line.key, 508.0 + 100 * number)
            filled[f"height {line.key}"] = self._traced_height_mm(line.key, seams) or guess_mm
        for line in self.lengths:
            if self.known.off[line.key].wants_altering:
                filled[f"change {line.key}"] = -self.known.off[line.key].difference_mm
        for at, seam in enumerate([*trunk[:FILLED_ROWS], *limb[:1]], start=1):
            pieces = [seam.piece_a] if seam.is_one_edge else [seam.piece_a, seam.piece_b]
            filled |= {f"seam {at}": seam.edge_a, f"pieces {at}": ", ".join(pieces), f"times {at}": seam.cut}
        return filled

    def _traced_height_mm(self, line: str, seams: Sequence[SeamFacts]) -> float | None:
        """Below the top of the first seam, where a piece of it is traced with that level."""
        for seam in seams[:1]:
            for piece, edge in ((seam.piece_a, seam.edge_a), (seam.piece_b, seam.edge_b)):
                shape = self.known.shapes.get(piece)
                if shape and (height_mm := shape.below_top(line, edge)) is not None:
                    return height_mm
        return None

    def tables(self) -> Sequence[BoxTable]:
        lengths = [self._lengths_table()] if self.lengths else []
        return (self._levels_table(), *lengths, self._seams_table())

    def _levels_table(self) -> BoxTable:
        return BoxTable(
            caption="Levels",
            heads=("level", "add, or with a minus take off", "doubt ±", "below the top of the seam"),
            rows=[
                self._row(self._said(line), ("change", "doubt", "height"), line.key) for line in self.levels
            ],
            says="Filled from the last comparison where it says to add or take off; what likeliest fits is "
            "left empty, and between the levels that are filled the seam runs fair. How far each level lies "
            "below the top of the seam is as traced, else a guess: measure it on the plate. A level of an "
            "arm or a leg is that of one, and is altered on both.",
        )

    def _lengths_table(self) -> BoxTable:
        return BoxTable(
            caption="Lengths",
            heads=("length", "add, or with a minus take off"),
            rows=[self._row(self._said(line), ("change",), line.key) for line in self.lengths],
            says="Filled from the last comparison where it says so. To add, cut the piece across and "
            "spread it; to take off, fold it. Of a change of 4 in or more half is made at the hem, so that "
            "the flare stays.",
        )

    def _seams_table(self) -> BoxTable:
        names = ("seam", "pieces", "times", "share")
        return BoxTable(
            caption="Seams that may be altered",
            heads=("", "seam", "pieces", "times", "share, %"),
            rows=[self._row(str(at), names, str(at)) for at in range(1, SEAM_ROWS + 1)],
            says="The first takes all that its edges should, then the next. With shares, all of them "
            "come to 100. A fold, a front edge or an armhole is altered only if you write it here.",
        )

    def _said(self, line: Line) -> str:
        """Its name, and what the comparison came to where that is not filled in."""
        off = self.known.off.get(line.key)
        return line.label if off is None or off.wants_altering else f"{line.label}: {_left_empty(off)}"

    def _row(self, label: str, names: Sequence[str], of: str) -> BoxRow:
        return BoxRow(label=label, boxes=[self[f"{name} {of}"] for name in names])

    def reckon(self) -> SheetAnswer:
        seams = tuple(self._seams())
        levels = tuple(self._levels(seams))
        if not levels and not self.known.off:
            raise Faults([Fault("", "Say at least one level’s change.")])
        return alteration_sheet(
            levels,
            seams,
            usual_mm=self.mm_or_0("usual"),
            widths_mm=self.known.widths_mm,
            shapes=self.known.shapes,
            left=tuple(self._left(seams)),
            lengths_mm={line.key: mm for line in self.lengths if (mm := self.mm(f"change {line.key}"))},
        )

    def _goes_round(self, seam: AlterableSeam, line: Line) -> bool:
        """A seam of sleeves alone takes no change of the trunk, and no other takes one of the arms."""
        read = [set(self.known.widths_mm.get(piece, ())) for piece in seam.pieces]
        of_limb = all(lines and all(LINES[one].has_sides for one in lines) for lines in read)
        return any(line.key in lines for lines in read) if line.has_sides else not of_limb

    def _levels(self, seams: Sequence[AlterableSeam]) -> Iterator[PlannedLevel]:
        for line in self.levels:
            change_mm, height_mm = self.mm(f"change {line.key}"), self.mm(f"height {line.key}")
            if change_mm is None:
                continue
            if height_mm is None:
                raise Faults([Fault(f"height {line.key}", "How far below the top of the seam does it lie?")])
            change = self._change(line, seams, height_mm=height_mm, change_mm=change_mm)
            yield PlannedLevel(change=change, u_mm=self.mm_or_0(f"doubt {line.key}"))

    def _left(self, seams: Sequence[AlterableSeam]) -> Iterator[LevelChange]:
        """Levels that are left as they are, where it is known how far down they lie."""
        for line in self.levels:
            height_mm = self.mm(f"height {line.key}")
            if self.mm(f"change {line.key}") is None and height_mm is not None:
                yield self._change(line, seams, height_mm=height_mm, change_mm=0.0)

    def _change(
        self, line: Line, seams: Sequence[AlterableSeam], *, height_mm: float, change_mm: float
    ) -> LevelChange:
        return LevelChange(
            level=line.key,
            height_mm=height_mm,
            change_mm=change_mm,
            limbs=2 if line.has_sides else 1,
            seams=[seam.name for seam in seams if self._goes_round(seam, line)],
        )

    def _seams(self) -> Iterator[AlterableSeam]:
        given = self.cleaned_data
        for at in range(1, SEAM_ROWS + 1):
            if not given.get(f"seam {at}"):
                continue
            pieces = [one.strip() for one in given.get(f"pieces {at}", "").split(",") if one.strip()]
            percent = given.get(f"share {at}")
            yield AlterableSeam(
                name=given[f"seam {at}"],
                pieces=tuple(pieces),
                times=given.get(f"times {at}") or 2,
                most_each_mm=self.mm_or_0("most_each"),
                share=None if percent is None else percent / 100,
            )

    def box_of(self, where: str) -> str | None:
        """A fault of a seam is told in its row."""
        named = (f"seam {at}" for at in range(1, SEAM_ROWS + 1))
        row = next((name for name in named if where and self.cleaned_data.get(name) == where), None)
        return row.replace("seam", "pieces") if row else super().box_of(where)


def _left_empty(off: PlateDifference) -> str:
    fits = off.chances[2]
    if off.verdict in (Verdict.FITS_AS_DRAWN, Verdict.TOO_CLOSE_TO_CALL):
        return off.verdict
    return f"likeliest fits ({fits:.0%})"
