"""When a set of measures can no longer be trusted, and why."""

from collections.abc import Mapping
from datetime import date


def stale_because(
    *, checked_on: date, today: date, stale_days: int, worn_changed_on: Mapping[str, date]
) -> str:
    """Return why measures last checked on that day are stale; empty where they are good.

    `worn_changed_on`: when each garment worn beneath was made or last changed, by name.
    """
    changed = [name for name, day in worn_changed_on.items() if day > checked_on]
    if changed:
        return f"{' and '.join(changed)} changed since"
    age = (today - checked_on).days
    return f"{age} days old" if age > stale_days else ""
