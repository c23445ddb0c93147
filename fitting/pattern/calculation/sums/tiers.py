"""Tiers: widths of cloth gathered one to the next, each a ratio wider than the one above."""

import math
from dataclasses import asdict, dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import FARTHEST_MM, MOST_TIERS, check, counted
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import at_waist
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer, number
from fitting.pattern.calculation.sums.strips import STRIPS, strips_asked


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiers:
    """Tiers gathered one to the next: `widths_mm` are flat widths from the top, each `ratio` × the last.

    The first is gathered to the top itself. `asked_ratio` is the one asked for, where whole tiers changed it.
    """

    top_mm: float
    ratio: float
    widths_mm: tuple[float, ...]
    asked_ratio: float | None = None

    @property
    def hem_mm(self) -> float:
        return self.widths_mm[-1]


def tiers(
    *, top_mm: float, hem_mm: float | None = None, ratio: float | None = None, number: int | None = None
) -> Tiers:
    """From the top girth and two of hem, ratio and number. From hem and ratio the number is made whole.

    Raises Faults where they are not two, or where the tiers would not widen.
    """
    if [hem_mm, ratio, number].count(None) != 1:
        raise Faults([Fault("ratio", "Give two of the three: hem, ratio, number of tiers.")])
    check({"top": top_mm, "hem": hem_mm})
    if (hem_mm is not None and hem_mm <= top_mm) or (ratio is not None and not 1 < ratio < math.inf):
        raise Faults([Fault("ratio", "Tiers widen: the hem is more than the top, the ratio more than 1.")])
    if number is not None and number < 1:
        raise Faults([Fault("number", "There is at least one tier.")])
    if number is None:
        count = math.log((hem_mm or 0) / top_mm) / math.log(ratio or 0)
        number = max(1, round(counted(count, where="ratio", what="tiers", most=MOST_TIERS)))
    counted(number, where="number", what="tiers", most=MOST_TIERS)
    each = ratio if hem_mm is None else (hem_mm / top_mm) ** (1 / number)
    each = each or 0.0
    check({"hem": top_mm * min(each, FARTHEST_MM) ** min(number, MOST_TIERS)})
    return Tiers(
        top_mm=top_mm,
        ratio=each,
        widths_mm=tuple(top_mm * each**step for step in range(1, number + 1)),
        asked_ratio=None if ratio is None or math.isclose(each, ratio) else ratio,
    )


def _reckon(
    *, top_mm: float, hem_mm: float | None, ratio: float | None, number: int | None, strips: object
) -> Tiers:
    return tiers(top_mm=top_mm, hem_mm=hem_mm, ratio=ratio, number=number)


def _answer(made: Tiers, given: Given) -> Answer:
    answer = asdict(made) | {"hem_mm": made.hem_mm}
    if given["strips"]:
        answer["strips"] = [asdict(strips_asked(width_mm, given["strips"])) for width_mm in made.widths_mm]
    return answer


def _worked(made: Tiers, given: Given) -> SheetAnswer:
    asked = given["strips"]
    cut = [strips_asked(width_mm, asked) for width_mm in made.widths_mm] if asked else []
    tops_mm = (made.top_mm, *made.widths_mm)
    cloth_mm = sum(one.cloth_mm for one in cut)
    ratio = number(made.ratio, 3)
    lines = [
        AnswerLine(label="ratio", parts=(f"each tier {ratio} × the one above",)),
        AnswerLine(label="hem", parts=(made.hem_mm,)),
        *([AnswerLine(label="cloth", parts=(cloth_mm, " in all"))] if cut else []),
    ]
    figures: dict[str, float] = {"ratio": made.ratio, "hem": made.hem_mm, "tiers": len(made.widths_mm)}
    grid = Grid(
        caption="Flat width of each tier, from the top",
        heads=("tier", "from the one above", "flat", *(("strips", "cloth") if cut else ())),
        rows=tuple(
            (
                (f"tier {at}",),
                (tops_mm[at - 1], f" × {ratio}"),
                (width_mm,),
                *(((str(cut[at - 1].number),), (cut[at - 1].cloth_mm,)) if cut else ()),
            )
            for at, width_mm in enumerate(made.widths_mm, start=1)
        ),
    )
    changed = f"Asked for {number(made.asked_ratio or 0, 3)}: whole tiers make it {ratio}."
    return SheetAnswer(
        figures=figures | ({"cloth": cloth_mm} if cut else {}),
        lines=tuple(lines),
        grids=(grid,),
        flags=((changed,),) if made.asked_ratio is not None else (),
    )


TIERS = PatternSum(
    key="tiers",
    title="tiers",
    says="Tiers gathered one to the next: hem, ratio or number from the others.",
    group="Fullness and pleats",
    command="fullness",
    inputs=(
        ask.Length("top", "Girth at the top", first=at_waist, is_needed=True),
        ask.Length("hem", "Hem"),
        ask.Number("ratio", "Each tier × the one above", first="1.5"),
        ask.Whole(
            "number", "Number of tiers", most=MOST_TIERS, first=3, hint="Give two of hem, ratio and number."
        ),
        STRIPS,
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
