"""The materials of an outfit and what is still to buy; its hours and money; its log as a stranger sees it.

In what a stranger reads no measure stands, and no name that was not agreed to.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import groupby

from django.db.models import OuterRef, QuerySet, Subquery, Sum

from fitting.outfits.calculation.discretion import words_for_anybody
from fitting.outfits.calculation.money import Spending, expected_price, still_to_buy
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialRow:
    """`to_buy_mm` or `to_buy_count`: whichever way it is counted; both 0 where all is there."""

    material: Material
    to_buy_mm: float
    to_buy_count: int

    @property
    def expected(self) -> Decimal | None:
        """What is still to be paid for it, as far as that is known."""
        return expected_price(
            self.material.price,
            price_for=self.material.price_for,
            to_buy_mm=self.to_buy_mm,
            to_buy_count=self.to_buy_count,
        )

    @property
    def is_to_buy(self) -> bool:
        return bool(self.to_buy_mm or self.to_buy_count)


def material_rows(materials: Iterable[Material]) -> list[MaterialRow]:
    return [
        MaterialRow(
            material=one,
            to_buy_mm=still_to_buy(one.needed_um, one.on_hand_um, one.bought_um) / 1000,
            to_buy_count=int(still_to_buy(one.needed_count, one.on_hand_count, one.bought_count)),
        )
        for one in materials
    ]


def by_supplier(rows: Iterable[MaterialRow]) -> list[tuple[str, list[MaterialRow]]]:
    """What is still to buy, shop by shop; what has no shop yet comes last, under ""."""
    to_buy = sorted(
        (row for row in rows if row.is_to_buy),
        key=lambda row: (not row.material.supplier, row.material.supplier.casefold()),
    )
    return [(shop, list(found)) for shop, found in groupby(to_buy, key=lambda row: row.material.supplier)]


def with_sums(outfits: QuerySet[Outfit]) -> QuerySet[Outfit]:
    """Each with the sums of its log, tasks and materials; None where there is nothing to add up."""
    return outfits.annotate(
        logged_hours=_sum("log", "hours"),
        estimated_hours=_sum("tasks", "estimate_hours"),
        paid_for_materials=_sum("materials", "cost"),
        paid_for_other=_sum("log", "cost"),
    )


def spending_of(outfit: Outfit, rows: Iterable[MaterialRow]) -> Spending:
    """`outfit` comes from `with_sums`; `rows` are all its materials."""
    return Spending(
        budget=outfit.budget,
        materials=outfit.paid_for_materials or Decimal(0),
        other=outfit.paid_for_other or Decimal(0),
        expected=sum((row.expected or Decimal(0) for row in rows), Decimal(0)),
    )


def _sum(of_outfit: str, column: str) -> Subquery:
    # A subquery for each: joined together, the rows of one would multiply those of the others.
    model = Outfit._meta.get_field(of_outfit).related_model
    rows = model.objects.filter(outfit=OuterRef("pk")).order_by().values("outfit")
    return Subquery(rows.annotate(total=Sum(column)).values("total"))


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedEntry:
    day: date
    garment: str
    text: str
    photos: Sequence[LogPhoto]


def entries_shared(share: Share) -> list[SharedEntry]:
    """What was chosen of the log, oldest first."""
    shown, names = set(photos_shared(share)), names_hidden(share)
    return [
        SharedEntry(
            day=entry.day,
            garment=words_for_anybody(entry.garment.name if entry.garment else "", names),
            text=words_for_anybody(entry.text, names),
            photos=[photo for photo in entry.photos.all() if photo in shown],
        )
        for entry in share.entries.select_related("garment").prefetch_related("photos").order_by("day", "pk")
    ]


def photos_shared(share: Share) -> list[LogPhoto]:
    """The pictures chosen, less those of the wearer where they did not agree to be seen."""
    chosen = share.photos.all()
    return [photo for photo in chosen if share.wearer_agrees or not photo.shows_wearer]


def names_hidden(share: Share) -> list[str]:
    """The names of everybody dressed in this workroom, but for the wearer who agreed to be named."""
    agreed = share.outfit.wearer_id if share.wearer_agrees else None
    return [name for wearer in share.outfit.workroom.wearers.exclude(pk=agreed) for name in wearer.names]
