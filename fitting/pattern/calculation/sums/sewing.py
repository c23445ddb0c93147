"""How long the sewing takes: stitches to make ÷ stitches a minute, timed on one seam that was sewn to try."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.pattern.calculation.limits import FARTHEST_MM
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer, number


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """A stitch as one maker sews it: how close, how fast."""

    stitches_per_inch: float
    stitches_per_minute: float

    def minutes(self, seam_mm: float) -> float:
        return seam_mm / INCH_MM * self.stitches_per_inch / self.stitches_per_minute

    def hours(self, seams_mm: Iterable[float]) -> float:
        """For all of them; a seam sewn twice, as a felled one is, comes twice."""
        return sum(self.minutes(seam_mm) for seam_mm in seams_mm) / 60


def timed(*, sample_mm: float, minutes: float, stitches_per_inch: float) -> Stitch:
    """From a seam sewn and timed. Raises Faults where one of the three is not more than nothing."""
    given = (sample_mm, minutes, stitches_per_inch)
    if not all(0 < one <= FARTHEST_MM for one in given):
        raise Faults([Fault("sample", "Length, time and stitches to the inch are more than nothing.")])
    return Stitch(
        stitches_per_inch=stitches_per_inch,
        stitches_per_minute=sample_mm / INCH_MM * stitches_per_inch / minutes,
    )


def _reckon(
    *, seams: Sequence[Mapping[str, Any]], sample_mm: float, minutes: float, per_inch: float
) -> Stitch:
    if not seams:
        raise Faults([Fault("seams", "Give the length of at least one seam.")])
    return timed(sample_mm=sample_mm, minutes=minutes, stitches_per_inch=per_inch)


def _worked(stitch: Stitch, given: Given) -> SheetAnswer:
    seams = [(seam["name"], seam["length_mm"], seam["times"]) for seam in given["seams"]]
    hours = stitch.hours(mm for _, mm, times in seams for _ in range(times))
    total_mm = sum(mm * times for _, mm, times in seams)
    pace = (
        f" at {number(given['per_inch'])} an inch in {number(given['minutes'])} minutes: "
        f"{number(stitch.stitches_per_minute, 1)} stitches a minute"
    )
    return SheetAnswer(
        figures={"hours": hours, "stitches a minute": stitch.stitches_per_minute, "seam": total_mm},
        lines=(
            AnswerLine(label="your pace", parts=(given["sample_mm"], pace)),
            AnswerLine(label="in all", parts=(total_mm, f" of seam, {number(hours, 1)} hours")),
        ),
        grids=(
            Grid(
                caption="Seam by seam",
                heads=("seam", "length", "time"),
                rows=tuple(
                    ((name,), (mm, f" × {times}"), (f"{number(times * stitch.minutes(mm), 0)} minutes",))
                    for name, mm, times in seams
                ),
            ),
        ),
    )


def _seams_of(known: GarmentFigures) -> list[dict[str, ask.Value]]:
    """Those whose length is known; a piece is cut as often as its seams are sewn."""
    return [
        {"name": str(seam)[:80], "length": seam.a_mm, "times": 1 if seam.is_one_edge else seam.cut}
        for seam in known.seams
        if seam.a_mm
    ]


SEWING = PatternSum(
    key="sewing",
    title="sewing time",
    says="Hours of sewing by hand, from one seam that you sewed and timed.",
    group="Time",
    inputs=(
        ask.Length(
            "sample",
            "Length of the seam you timed",
            box="sample_mm",
            first=lambda known: known.timed.length_mm if known.timed else 254.0,
            hint=lambda known: f"From the log, {known.timed.day:%-d %B %Y}." if known.timed else "",
            is_needed=True,
        ),
        ask.Number(
            "minutes",
            "Minutes it took",
            first=lambda known: number(known.timed.minutes) if known.timed else None,
            least=0.1,
            most=10_000,
            is_needed=True,
        ),
        ask.Number("per_inch", "Stitches to the inch", first="10", least=0.5, most=100, is_needed=True),
        ask.InputRows(
            name="seams",
            columns=(
                ask.Text("name", "seam {at}", default="seam {at}", size=30),
                ask.Length("length", "length of seam {at}", is_needed=True),
                ask.Whole("times", "how often seam {at} is sewn", most=99, default=1),
            ),
            caption="Seams to sew",
            heads=("", "seam", "length", "times sewn"),
            says="Both sides of the body counted. A felled seam is sewn twice: count it twice.",
            marked_by="length",
            first=_seams_of,
            blank=3,
        ),
    ),
    reckon=_reckon,
    worked=_worked,
)
