"""What an outfit has cost, what is still to come, and what that leaves of its budget."""

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Spending:
    """In the outfit's own money. `expected`: prices of what is still to buy. `budget` None: none was set."""

    budget: Decimal | None
    materials: Decimal
    other: Decimal
    expected: Decimal

    @property
    def spent(self) -> Decimal:
        return self.materials + self.other

    @property
    def left(self) -> Decimal | None:
        """Of the budget, once everything expected is paid too; negative where it will not do."""
        return None if self.budget is None else self.budget - self.spent - self.expected

    @property
    def is_over(self) -> bool:
        return self.left is not None and self.left < 0
