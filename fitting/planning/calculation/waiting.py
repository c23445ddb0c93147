"""What waits for what in an outfit: garments for those worn beneath, tasks for the tasks before them.

Each garment is measured over what lies beneath it, and fitted over it. Both rules are common practice, no
source; that boned garments alone hold up a pattern is ours, since the rest is built up by its thickness.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

STAGES = ("studied", "route chosen", "patterned", "toile", "fitted", "cut", "sewn", "finished")
_RANK = {stage: rank for rank, stage in enumerate(STAGES)}


@dataclass(frozen=True, slots=True, kw_only=True)
class WornGarment:
    """A garment in its place in the dressing order, as far as it is made."""

    key: int
    order: int
    name: str
    stage: str
    is_boned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DressingRule:
    """Before a garment comes to the stage `before`, those beneath that `holds` names must be at `until`."""

    before: str
    holds: Callable[[WornGarment], bool]
    until: str
    why: str


RULES = (
    DressingRule(
        before="patterned",
        holds=lambda worn: worn.is_boned,
        until="sewn",
        why="its pattern is measured over them",
    ),
    DressingRule(before="fitted", holds=lambda worn: True, until="sewn", why="worn at the fitting"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """`garment` cannot come to the stage `before` until `on`, worn beneath it, is at `until`."""

    garment: WornGarment
    on: WornGarment
    before: str
    until: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StagedTask:
    """An open task that brings a garment to a stage."""

    key: str
    garment: int
    leads_to: str


def waits_of(garments: Sequence[WornGarment]) -> list[Wait]:
    """Return what waits for what now, by garment from the skin outward; of two reasons the first counts."""
    found: dict[tuple[int, int], Wait] = {}
    for rule in RULES:
        for wait in _waits_by(rule, garments):
            found.setdefault((wait.garment.order, wait.on.order), wait)
    return [found[places] for places in sorted(found)]


def task_waits(tasks: Sequence[StagedTask], garments: Sequence[WornGarment]) -> dict[str, list[str]]:
    """Return for each open task those that the order of stages, and of dressing, puts before it."""
    waits: dict[str, list[str]] = {task.key: [] for task in tasks}
    of_garment = {garment.key: _by_stage(tasks, garment.key) for garment in garments}
    for stages in of_garment.values():
        for before, after in pairwise(stages.values()):
            for key in after:
                waits[key] += before
    for wait in (one for rule in RULES for one in _waits_by(rule, garments)):
        last = _last_until(of_garment[wait.on.key], wait.until)
        for key in _first_from(of_garment[wait.garment.key], wait.before):
            waits[key] += [one for one in last if one not in waits[key]]
    return waits


def _waits_by(rule: DressingRule, garments: Sequence[WornGarment]) -> list[Wait]:
    return [
        Wait(garment=garment, on=on, before=rule.before, until=rule.until, why=rule.why)
        for garment in garments
        for on in garments
        if _holds_up(rule, garment, on)
    ]


def _holds_up(rule: DressingRule, garment: WornGarment, on: WornGarment) -> bool:
    return (
        on.order < garment.order
        and rule.holds(on)
        and _RANK[garment.stage] < _RANK[rule.before]
        and _RANK[on.stage] < _RANK[rule.until]
    )


def _by_stage(tasks: Sequence[StagedTask], garment: int) -> dict[str, list[str]]:
    """Keys of the garment's tasks by the stage they lead to, in the order of stages; no stage is empty."""
    found = {
        stage: [task.key for task in tasks if task.garment == garment and task.leads_to == stage]
        for stage in STAGES
    }
    return {stage: keys for stage, keys in found.items() if keys}


def _first_from(stages: Mapping[str, list[str]], before: str) -> list[str]:
    return next((keys for stage, keys in stages.items() if _RANK[stage] >= _RANK[before]), [])


def _last_until(stages: Mapping[str, list[str]], until: str) -> list[str]:
    reached = [keys for stage, keys in stages.items() if _RANK[stage] <= _RANK[until]]
    return reached[-1] if reached else []
