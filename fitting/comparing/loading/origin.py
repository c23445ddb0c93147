"""Where the measures of a comparison come from, kept with it in plain JSON: the rows may change or go."""

from typing import Any

from fitting.comparing.loading.body import LineUsed, MeasuresUsed


def origin_of(used: MeasuresUsed) -> dict[str, Any]:
    """The set with its date and state, and in mm, line by line, what was taken, taken in and laid over it."""
    return {
        "set": str(used.measures.key),
        "taken_on": used.measures.taken_on.isoformat(),
        "state": used.measures.get_state_display(),
        "how": used.how.value,
        "stale": used.stale,
        "lines": {line: _line(one) for line, one in used.lines.items()},
    }


def _line(used: LineUsed) -> dict[str, Any]:
    return {
        "how": used.how.value,
        "taken_mm": used.taken.mm,
        "taken_doubt_mm": used.taken.doubt_mm,
        "reduction_mm": used.reduction_mm,
        "layers": [{"name": layer.name, "added_mm": layer.added_mm} for layer in used.layers],
        "mm": used.measure.mm,
        "doubt_mm": used.measure.doubt_mm,
    }
