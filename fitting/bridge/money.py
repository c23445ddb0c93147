"""What an outfit has cost: its materials, and what else the log tells of."""

from decimal import Decimal

from django.db.models import Sum

from fitting.calculation.money import Spending
from fitting.models import LogEntry, Material, Outfit


def spending_of(outfit: Outfit) -> Spending:
    """Two queries."""
    bought = Material.objects.filter(outfit=outfit).aggregate(paid=Sum("cost"), expected=Sum("price"))
    other = LogEntry.objects.filter(outfit=outfit).aggregate(paid=Sum("cost"))
    return Spending(
        budget=outfit.budget,
        materials=bought["paid"] or Decimal(0),
        other=other["paid"] or Decimal(0),
        expected=bought["expected"] or Decimal(0),
    )
