"""A plate at full size against the wearer, line by line: D = G − W, where the wanted W is body + ease.

Where measures are stale: how little the body would have to have changed for another verdict (`slack`).
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.doubt import DoubtPart, doubt_parts, doubtful
from catalogue.lengths.calculation.units import INCH_MM
from catalogue.plates.calculation.girth import FullSize, Reckoning, is_reading
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.limits import Bounds
from fitting.comparing.calculation.verdict import Chances, Kind, Verdict, chances_of, verdict_of
from fitting.outfits.calculation.garment import Fit
from fitting.wearers.calculation.body import BodyMeasure

# Where the doubt of a body measure stands in a case.
BODY_SOURCES: Mapping[Kind, str] = {"girth": "measures.doubt", "length": "measures.length_doubt"}
# How finely, and how far, a body is thought to have changed until a verdict does.
STEP_MM = INCH_MM / 8
FARTHEST_MM = 4 * INCH_MM
JUST_INSIDE_MM = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class LineComparison:
    """One level or length. A gathered one is not compared: no chances, and `ratio` says how full it is.

    `doubts` are the parts of u², each by the path in a case of the input that it comes from.
    """

    line: str
    kind: Kind
    fit: Fit
    bounds: Bounds
    full_size: FullSize
    garment_mm: float
    body_mm: float
    ease_mm: float
    wanted_mm: float
    difference_mm: float
    doubts: tuple[DoubtPart, ...]
    u_mm: float
    chances: Chances | None
    verdict: Verdict

    @property
    def ratio(self) -> float | None:
        """Garment ÷ wanted, where it is gathered."""
        return self.garment_mm / self.wanted_mm if self.chances is None else None

    @property
    def likeliest(self) -> Verdict | None:
        """What the region with the largest chance is called; of equals, to fit."""
        if self.chances is None:
            return None
        named = self.chances.by_verdict(self.kind)
        # Half and half must not be decided by the last binary digit.
        return max(named, key=lambda verdict: (round(named[verdict], 9), verdict is Verdict.FITS_AS_DRAWN))

    @property
    def likeliest_alteration(self) -> tuple[Verdict, float] | None:
        """Of add, fits and take off the likeliest, with its chance: what “within altering” may mean."""
        if self.chances is None:
            return None
        alterable = list(self.chances.by_verdict(self.kind).items())[1:4]
        return max(alterable, key=lambda named: named[1])

    @property
    def largest_doubt(self) -> DoubtPart | None:
        """The input that adds most to u²; of equals the first by its path."""
        u2 = self.u_mm**2
        return min(
            self.doubts, key=lambda part: (-round(part.variance_mm2 / u2, 9), part.source), default=None
        )

    def with_finer_rule(self) -> "LineComparison":
        """The same difference, had every reading been made with a rule of half the division."""
        return self._with_doubts(lambda part: 1 / 4 if is_reading(part.source) else 1.0)

    def with_second_measure(self) -> "LineComparison":
        """The same difference, had the body been measured twice as well and the mean taken."""
        return self._with_doubts(lambda part: 1 / 2 if part.source in BODY_SOURCES.values() else 1.0)

    def told_by_toile(self, verdict: Verdict) -> "LineComparison":
        """The same line once it is known to lie in that region, as near as can be to where it was read."""
        bounds = self.bounds
        edges = (-math.inf, -bounds.add_mm, -bounds.fits_mm, bounds.fits_mm, bounds.take_off_mm, math.inf)
        region = list(Chances.verdicts(self.kind)).index(verdict)
        least, most = edges[region] + JUST_INSIDE_MM, edges[region + 1] - JUST_INSIDE_MM
        difference_mm = min(max(self.difference_mm, least), most)
        return replace(self, difference_mm=difference_mm, u_mm=0.0, doubts=())._judged_again()

    def with_body(self, body_mm: float) -> "LineComparison":
        """The same garment on another body, with the same doubt."""
        wanted_mm = body_mm + self.ease_mm
        difference_mm = self.garment_mm - wanted_mm
        other = replace(self, body_mm=body_mm, wanted_mm=wanted_mm, difference_mm=difference_mm)
        return other._judged_again()

    def _with_doubts(self, share_left: Callable[[DoubtPart], float]) -> "LineComparison":
        doubts = tuple(
            replace(part, variance_mm2=part.variance_mm2 * share_left(part)) for part in self.doubts
        )
        return replace(self, doubts=doubts, u_mm=_root_sum(doubts))._judged_again()

    def _judged_again(self) -> "LineComparison":
        chances, verdict = _judge(self.difference_mm, self.u_mm, self.bounds, self.fit, self.kind)
        return replace(self, chances=chances, verdict=verdict)


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparedLines:
    """Every level and length of a case that is both read and measured, in the order of the measures."""

    levels: tuple[LineComparison, ...]
    lengths: tuple[LineComparison, ...]

    @property
    def compared(self) -> tuple[LineComparison, ...]:
        """Levels, then lengths, without those that are gathered."""
        return tuple(line for line in (*self.levels, *self.lengths) if line.chances is not None)

    @property
    def judged(self) -> tuple[LineComparison, ...]:
        """What the fit of the whole rests on: fitted lines, or the loose ones where there is no other."""
        return tuple(line for line in self.compared if line.fit is Fit.FITTED) or self.compared

    def replacing(self, line: LineComparison) -> "ComparedLines":
        """The same comparison with one of its lines in place of that of the same name and kind."""

        def swap(lines: tuple[LineComparison, ...]) -> tuple[LineComparison, ...]:
            return tuple(line if (one.line, one.kind) == (line.line, line.kind) else one for one in lines)

        return ComparedLines(levels=swap(self.levels), lengths=swap(self.lengths))


def compare(case: Case, *, allowance_mm: float | None = None) -> ComparedLines:
    """Compare what can be. `allowance_mm` answers for a plate whose allowance is not known (else none)."""
    reckoning = Reckoning.of(case.plate, allowance_mm=allowance_mm)
    girth_bounds, length_bounds = case.limits.of_girths(), case.limits.of_lengths()
    levels = (
        _compare_line(case, "girth", reckoning.girth(level), case.body.girths[level], girth_bounds)
        for level in case.levels
    )
    lengths = (
        _compare_line(case, "length", reckoning.length(name), case.body.lengths[name], length_bounds)
        for name in case.lengths
    )
    return ComparedLines(levels=tuple(levels), lengths=tuple(lengths))


def _compare_line(
    case: Case, kind: Kind, full_size: FullSize, body: BodyMeasure, bounds: Bounds
) -> LineComparison:
    line, garment_mm = full_size.line, full_size.mm
    ease_mm = case.ease_at_mm(line)
    wanted_mm = body.mm + ease_mm
    difference_mm = garment_mm - wanted_mm
    doubts = doubt_parts(full_size.value - doubtful(body.mm, body.doubt_mm, BODY_SOURCES[kind]))
    u_mm = _root_sum(doubts)
    fit = case.fit_at(line)
    chances, verdict = _judge(difference_mm, u_mm, bounds, fit, kind)
    return LineComparison(
        line=line,
        kind=kind,
        fit=fit,
        bounds=bounds,
        full_size=full_size,
        garment_mm=garment_mm,
        body_mm=body.mm,
        ease_mm=ease_mm,
        wanted_mm=wanted_mm,
        difference_mm=difference_mm,
        doubts=doubts,
        u_mm=u_mm,
        chances=chances,
        verdict=verdict,
    )


def _judge(
    difference_mm: float, u_mm: float, bounds: Bounds, fit: Fit, kind: Kind
) -> tuple[Chances | None, Verdict]:
    if fit is Fit.GATHERED:
        return None, Verdict.GATHERED
    chances = chances_of(difference_mm, u_mm, bounds, is_loose=fit is Fit.LOOSE)
    return chances, verdict_of(chances, kind)


def _root_sum(doubts: tuple[DoubtPart, ...]) -> float:
    return math.sqrt(sum(part.variance_mm2 for part in doubts))


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """The least by which the body may have grown or shrunk for another verdict; None: not by 4 in either."""

    grown_mm: float | None
    shrunk_mm: float | None


def slack(line: LineComparison) -> Slack:
    """The slack of a line, found in steps of 1/8 in, the least that a tape shows."""
    return Slack(grown_mm=_first_change_mm(line, 1), shrunk_mm=_first_change_mm(line, -1))


def _first_change_mm(line: LineComparison, sign: int) -> float | None:
    steps = range(1, round(FARTHEST_MM / STEP_MM) + 1)
    changes = (step * STEP_MM for step in steps)
    return next(
        (mm for mm in changes if line.with_body(line.body_mm + sign * mm).verdict != line.verdict),
        None,
    )
