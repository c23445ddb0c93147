"""The next step: the first thing to do that would in truth change a route's standing or a verdict.

Each step is tried on the figures before it is named, except where only doing it can tell.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import page_text
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import Comparison, LineComparison
from fitting.comparing.calculation.route.judgement import judge_routes
from fitting.comparing.calculation.verdict import Verdict

UNSETTLED = (Verdict.WITHIN_ALTERING, Verdict.TOO_CLOSE_TO_CALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """One case as it stands; `if_included` is there while nobody knows whether allowance is drawn."""

    case: Case
    comparison: Comparison
    if_included: Comparison | None
    system: System

    def would_change(self, case: Case, comparison: Comparison) -> bool:
        """Whether any standing or verdict would be another."""
        return _outcome(self.case, self.comparison) != _outcome(case, comparison)


def next_step(
    case: Case, comparison: Comparison, if_included: Comparison | None, *, system: System = "in"
) -> str | None:
    """One plain sentence, or None where nothing would change."""
    doubts = Doubts(case=case, comparison=comparison, if_included=if_included, system=system)
    return next((step for try_step in STEPS if (step := try_step(doubts))), None)


def _settle_the_allowance(doubts: Doubts) -> str | None:
    if doubts.if_included is None:
        return None
    plate = doubts.case.plate
    settled = replace(doubts.case, plate=replace(plate, allowance_mm=0.0))
    if any(doubts.would_change(settled, one) for one in (doubts.comparison, doubts.if_included)):
        return "Settle whether the plate includes seam allowance: no enlargement can be judged until then."
    return None


def _find_something_to_compare(doubts: Doubts) -> str | None:
    if doubts.comparison.compared:
        return None
    return "Read a level on the plate that is also measured on the wearer: nothing can be compared yet."


def _make_the_miniature(doubts: Doubts) -> str | None:
    seams = doubts.case.seams
    tried = replace(seams, tried=seams.tried + seams.unknown, unknown=0)
    if doubts.would_change(replace(doubts.case, seams=tried), doubts.comparison):
        return "Make a miniature in paper or tissue: it shows how the unknown seams go together."
    return None


def _measure_again(doubts: Doubts) -> str | None:
    if doubts.case.body.stale:
        return f"Measure the wearer again: {doubts.case.body.stale}."
    for line in doubts.comparison.compared:
        if _would_change_with(doubts, line.with_second_measure()):
            return f"Measure {line.line} a second time: the mean of two would decide more than one does."
    return None


def _read_with_a_finer_rule(doubts: Doubts) -> str | None:
    division = page_text(doubts.case.plate.rule_division_mm / 2, doubts.system)
    for line in doubts.comparison.compared:
        if _would_change_with(doubts, line.with_finer_rule()):
            return f"Read {line.line} again with a finer rule, to {division}: it would decide more."
    return None


def _make_a_toile(doubts: Doubts) -> str | None:
    unsettled = [line.line for line in doubts.comparison.compared if line.verdict in UNSETTLED]
    if unsettled:
        return f"Make a toile: it will tell at {_listed(unsettled)}."
    return None


# In the order in which they are worth doing.
STEPS: tuple[Callable[[Doubts], str | None], ...] = (
    _settle_the_allowance,
    _find_something_to_compare,
    _make_the_miniature,
    _measure_again,
    _read_with_a_finer_rule,
    _make_a_toile,
)


def _would_change_with(doubts: Doubts, line: LineComparison) -> bool:
    return doubts.would_change(doubts.case, doubts.comparison.replacing(line))


def _outcome(case: Case, comparison: Comparison) -> list[str]:
    return [*_standings(case, comparison), *(line.verdict for line in comparison.compared)]


def _standings(case: Case, comparison: Comparison) -> Iterator[str]:
    return (judgement.standing for judgement in judge_routes(case, comparison))


def _listed(words: list[str]) -> str:
    *others, last = words
    return f"{', '.join(others)} and {last}" if others else last
