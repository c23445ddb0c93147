"""A working pattern, and what its steps were asked, as the JSON that rows keep of them."""

from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.workroom.reader.codec import from_json, to_json
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.calculation.working.steps import BY_ASKED, STEPS


def pattern_to_kept(pattern: Pattern) -> dict[str, Any]:
    """Curves with their own handles: what is read back is the very same line."""
    return to_json(pattern, lean=True)


def pattern_of_kept(kept: Any) -> Pattern:
    """Raises Faults where it is no pattern of ours, or one that cannot be cut."""
    pattern = from_json(Pattern, kept)
    if faults := pattern.faults():
        raise Faults(faults)
    return pattern


def asked_to_kept(asked: Any) -> dict[str, Any]:
    return {"step": BY_ASKED[type(asked)].name, "asked": to_json(asked, lean=True)}


def asked_of_kept(kept: Any) -> Any:
    """Raises Faults where there is no such step, or it was asked otherwise."""
    if kept["step"] not in STEPS:
        raise Faults([Fault("step", f"There is no such step: “{kept['step'][:40]}”.")])
    return from_json(STEPS[kept["step"]].asks, kept["asked"])
