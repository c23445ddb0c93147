"""When a set of measures can no longer be trusted, and why."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """A day on which something was done, and when it was said to be done; None where nobody noted that."""

    on: date
    said_at: datetime | None = None

    def is_after(self, other: "Event") -> bool:
        """On one day it counts which of the two was said later."""
        if self.on != other.on or self.said_at is None or other.said_at is None:
            return self.on > other.on
        return self.said_at > other.said_at


def stale_because(*, checked: Event, today: date, stale_days: int, worn_made: Mapping[str, Event]) -> str:
    """Return why measures last checked then are stale; empty where they are good.

    `worn_made`: when each garment worn beneath was made or last changed, by name.
    """
    changed = [name for name, made in worn_made.items() if made.is_after(checked)]
    if changed:
        return f"{' and '.join(changed)} changed since"
    age = (today - checked.on).days
    return f"{age} days old" if age > stale_days else ""
