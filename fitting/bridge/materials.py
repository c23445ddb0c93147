"""The materials of an outfit, each with what is still to buy of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from fitting.calculation.shopping import still_to_buy
from fitting.models.cloth import Material


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialRow:
    """`to_buy_mm` or `to_buy_count`: whichever way it is counted; both 0 where all is there."""

    material: Material
    to_buy_mm: float
    to_buy_count: int

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
