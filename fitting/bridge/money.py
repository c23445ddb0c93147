"""What an outfit has taken so far, in hours and in money."""

from decimal import Decimal

from django.db.models import OuterRef, QuerySet, Subquery, Sum

from fitting.calculation.money import Spending
from fitting.models.outfit import Outfit


def with_sums(outfits: QuerySet[Outfit]) -> QuerySet[Outfit]:
    """Each with the sums of its log, tasks and materials; None where there is nothing to add up."""
    return outfits.annotate(
        logged_hours=_sum("log", "hours"),
        estimated_hours=_sum("tasks", "estimate_hours"),
        paid_for_materials=_sum("materials", "cost"),
        paid_for_other=_sum("log", "cost"),
        expected_for_materials=_sum("materials", "price"),
    )


def spending_of(outfit: Outfit) -> Spending:
    """`outfit` comes from `with_sums`."""
    return Spending(
        budget=outfit.budget,
        materials=outfit.paid_for_materials or Decimal(0),
        other=outfit.paid_for_other or Decimal(0),
        expected=outfit.expected_for_materials or Decimal(0),
    )


def _sum(of_outfit: str, column: str) -> Subquery:
    # A subquery for each: joined together, the rows of one would multiply those of the others.
    model = Outfit._meta.get_field(of_outfit).related_model
    rows = model.objects.filter(outfit=OuterRef("pk")).order_by().values("outfit")
    return Subquery(rows.annotate(total=Sum(column)).values("total"))
