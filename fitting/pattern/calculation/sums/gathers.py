"""Gathers: how much flat cloth goes into a finished length.

Ratio = flat ÷ finished. Read off the plate, it is kept for the wearer, whose finished length is another.
"""

from dataclasses import asdict, dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures, at_waist
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer, number
from fitting.pattern.calculation.sums.strips import STRIPS, in_strips, strips_told

# Flat : finished, least and most. Each with who says so.
RATIOS = (
    ("straight ruffle", 4 / 3, 3 / 2, "L. I. Baldt, Clothing for Women, 1916"),
    ("bias ruffle", 5 / 4, 4 / 3, "L. I. Baldt, Clothing for Women, 1916"),
    ("taffeta ruche", 2.0, 2.0, "The New Dressmaker, 1921, ch. 28"),
    ("soft chiffon ruche", 3.0, 3.0, "The New Dressmaker, 1921, ch. 28"),
    ("side-plaited quilling", 3.0, 3.0, "The New Dressmaker, 1921, ch. 28"),
    ("gathers of light cloth", 1.5, 1.5, "general handbooks, from memory"),
    ("gathers of medium cloth", 2.0, 2.0, "general handbooks, from memory"),
    ("gathers of sheer cloth", 2.5, 3.0, "general handbooks, from memory"),
)

_SLIP = 1e-9  # a whole number stays one, whatever the last binary digit says


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathers:
    """Flat cloth gathered to a finished length."""

    finished_mm: float
    flat_mm: float

    @property
    def ratio(self) -> float:
        return self.flat_mm / self.finished_mm

    def over(self, finished_mm: float) -> "Gathers":
        """The same fullness over another length: read off the plate, made for the wearer."""
        return Gathers(finished_mm=finished_mm, flat_mm=self.ratio * finished_mm)


def gathers(
    *, finished_mm: float | None = None, flat_mm: float | None = None, ratio: float | None = None
) -> Gathers:
    """From any two of the three. Raises Faults where they are not two, or leave nothing to gather."""
    if [finished_mm, flat_mm, ratio].count(None) != 1:
        raise Faults([Fault("finished", "Give two of the three: finished length, flat length, ratio.")])
    check({"finished": finished_mm, "flat": flat_mm, "ratio": ratio})
    if flat_mm is None:
        flat_mm = (finished_mm or 0.0) * (ratio or 0.0)
    if finished_mm is None:
        finished_mm = flat_mm / (ratio or 1.0)
    if flat_mm < finished_mm * (1 - _SLIP):
        raise Faults([Fault("flat", "There is less flat cloth than finished length: nothing to gather.")])
    check({"flat": flat_mm, "finished": finished_mm})
    return Gathers(finished_mm=finished_mm, flat_mm=flat_mm)


def _reckon(*, strips: object, **known: float | None) -> Gathers:
    return gathers(**known)


def _answer(made: Gathers, given: Given) -> Answer:
    return asdict(made) | {"ratio": made.ratio} | strips_told(made.flat_mm, given["strips"])


def _worked(made: Gathers, given: Given) -> SheetAnswer:
    ratio = number(made.ratio)
    worked = SheetAnswer(
        figures={"finished": made.finished_mm, "flat": made.flat_mm, "ratio": made.ratio},
        lines=(
            AnswerLine(label="ratio", parts=(made.flat_mm, " ÷ ", made.finished_mm, f" = {ratio}"))
            if given["ratio"] is None
            else AnswerLine(label="flat cloth", parts=(made.finished_mm, f" × {ratio} = ", made.flat_mm)),
        ),
        grids=(
            Grid(
                caption="What others give for this finished length",
                heads=("fullness", "flat ÷ finished", "at least", "who says so"),
                rows=tuple(
                    (
                        (name,),
                        (number(least) if least == most else f"{number(least)} to {number(most)}",),
                        (least * made.finished_mm,),
                        (source,),
                    )
                    for name, least, most, source in RATIOS
                ),
            ),
        ),
    )
    return in_strips(worked, made.flat_mm, given["strips"])


def _first_ratio(known: GarmentFigures) -> str | None:
    ratio = known.ratio("waist")
    return number(ratio, 3) if ratio else None


GATHERS = PatternSum(
    key="gathers",
    title="gathers and strips",
    says="Flat cloth, finished length, or the ratio between them; and the strips that makes.",
    group="Fullness and pleats",
    command="fullness",
    inputs=(
        ask.Length("finished", "Finished length", first=at_waist),
        ask.Length("flat", "Flat cloth"),
        ask.Number("ratio", "Flat ÷ finished", first=_first_ratio, hint="Give two of these three."),
        STRIPS,
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
