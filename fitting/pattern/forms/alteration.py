"""The boxes of the alteration plan: each level, each seam that may be altered."""

from collections.abc import Iterator, Sequence
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.alteration import AlterableSeam, LevelChange
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet
from fitting.pattern.loading.known import KnownSeam
from fitting.pattern.loading.worked import Worked
from fitting.pattern.models import WorkNote
from fitting.pattern.showing.alteration import alteration_sheet
from fitting.pattern.showing.altered_pieces import PlannedLevel

SEAM_ROWS, FILLED_ROWS = 4, 2
# Where a level lies below the top of the seams, until the maker says; common practice, no source.
FIRST_HEIGHTS_MM = {"high bust": 0.0, "bust": 25.4, "under bust": 101.6, "waist": 203.2, "hip": 381.0}
# Never unasked: a fold, a front edge, an armhole, and what is no seam round the body.
NEVER = ("front edge", "centre", "armhole", "head", "shoulder", "neck", "hem", "waist", "fore arm",
         "hind arm", "sleeve", "strap", "skirt", "vent")  # fmt: skip


class AlterationSheet(WorkSheet):
    kind = WorkNote.Kind.ALTERATION
    says = "What each edge gets at each level, and the allowance to cut if the paper stays as it is."

    most_each = LengthFormField(label="The most one edge should take")
    usual = LengthFormField(label="Your usual seam allowance")

    def add_rows(self) -> None:
        compared = [line for line in LINES.values() if line.key in self.known.off]
        girths = [line for line in compared if line.kind == "girth" and not line.has_sides]
        self.levels = girths or [LINES["bust"], LINES["waist"]]
        for line in self.levels:
            self.add_length(f"change {line.key}", f"change at the {line.label}", signed=True)
            self.add_length(f"doubt {line.key}", f"its doubt at the {line.label}")
            self.add_length(f"height {line.key}", f"how far the {line.label} lies below the top of the seam")
        self.lengths = [
            line for line in LINES.values() if line.key in self.known.off and line.kind == "length"
        ]
        for line in self.lengths:
            self.add_length(f"change {line.key}", f"change of the {line.label}", signed=True)
        for at in range(1, SEAM_ROWS + 1):
            self.add_word(f"seam {at}", f"seam {at}")
            self.add_word(f"pieces {at}", f"pieces that meet in seam {at}")
            self.add_number(
                f"times {at}", f"how often seam {at} comes round the body", min_value=1, max_value=12
            )
            self.add_number(f"share {at}", f"share of seam {at} in percent", min_value=0, max_value=100)

    def fill(self) -> dict[str, Any]:
        filled: dict[str, Any] = {"most_each": self.known.per_edge_mm, "usual": self.known.usual_mm}
        seams = alterable(self.known.seams)[:FILLED_ROWS]
        for number, line in enumerate(self.levels):
            off = self.known.off.get(line.key)
            filled[f"change {line.key}"] = -off.difference_mm if off else None
            filled[f"doubt {line.key}"] = off.u_mm if off else None
            guess_mm = FIRST_HEIGHTS_MM.get(line.key, 508.0 + 100 * number)
            filled[f"height {line.key}"] = self._traced_height_mm(line.key, seams) or guess_mm
        for line in self.lengths:
            filled[f"change {line.key}"] = -self.known.off[line.key].difference_mm
        for at, seam in enumerate(seams, start=1):
            filled |= {
                f"seam {at}": seam.edge_a,
                f"pieces {at}": f"{seam.piece_a}, {seam.piece_b}",
                f"times {at}": seam.cut,
            }
        return filled

    def _traced_height_mm(self, line: str, seams: Sequence[KnownSeam]) -> float | None:
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
            rows=[self._row(line.label, ("change", "doubt", "height"), line.key) for line in self.levels],
            says="Filled from the last comparison. How far each level lies below the top of the seam is "
            "as traced, else a guess: measure it on the plate. A level with no change is left empty.",
        )

    def _lengths_table(self) -> BoxTable:
        return BoxTable(
            caption="Lengths",
            heads=("length", "add, or with a minus take off"),
            rows=[self._row(line.label, ("change",), line.key) for line in self.lengths],
            says="Filled from the last comparison. To add, cut the piece across and spread it; to take off, "
            "fold it. Of a change of 4 in or more half is made at the hem, so that the flare stays.",
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

    def _row(self, label: str, names: Sequence[str], of: str) -> BoxRow:
        return BoxRow(label=label, boxes=[self[f"{name} {of}"] for name in names])

    def reckon(self) -> Worked:
        levels = tuple(self._levels())
        if not levels:
            raise Faults([Fault("", "Say at least one level’s change.")])
        return alteration_sheet(
            levels,
            tuple(self._seams()),
            usual_mm=self.mm_or_0("usual"),
            widths_mm=self.known.widths_mm,
            shapes=self.known.shapes,
            lengths_mm={line.key: mm for line in self.lengths if (mm := self.mm(f"change {line.key}"))},
        )

    def _levels(self) -> Iterator[PlannedLevel]:
        for line in self.levels:
            change_mm, height_mm = self.mm(f"change {line.key}"), self.mm(f"height {line.key}")
            if change_mm is None:
                continue
            if height_mm is None:
                raise Faults([Fault(f"height {line.key}", "How far below the top of the seam does it lie?")])
            yield PlannedLevel(
                change=LevelChange(level=line.key, height_mm=height_mm, change_mm=change_mm),
                u_mm=self.mm_or_0(f"doubt {line.key}"),
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


def alterable(seams: Sequence[KnownSeam]) -> list[KnownSeam]:
    """Those that may be altered unasked, side seams first, then the side back."""
    found = [
        seam
        for seam in seams
        if not seam.is_one_edge
        and not seam.is_eased
        and not any(word in f"{seam.edge_a} {seam.edge_b}" for word in NEVER)
    ]
    return sorted(found, key=lambda seam: (_rank(seam), seams.index(seam)))


def _rank(seam: KnownSeam) -> int:
    name = seam.edge_a
    if name.startswith("side seam") or "under-arm" in name or name == "side":
        return 0
    return 1 if "back" in name else 2
