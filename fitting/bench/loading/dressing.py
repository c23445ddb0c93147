"""The garments of an outfit in dressing order: what each waits for, holds up, and is worn over."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fitting.comparing.showing.standing import GarmentStanding
from fitting.outfits.models.garment import Garment
from fitting.planning.calculation.waiting import STAGES, Wait, waits_of
from fitting.planning.loading.work import worn_of


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentInOrder:
    """`beneath`: what must be worn at its fitting, from the skin outward.

    `standing` is None for a reader: it is reckoned from a body.
    """

    garment: Garment
    waits_for: tuple[Wait, ...]
    holds_up: tuple[Wait, ...]
    beneath: tuple[Garment, ...]
    standing: GarmentStanding | None = None

    @property
    def waits_by_stage(self) -> list[tuple[str, list[Wait]]]:
        """What it waits for before each stage, in the order of stages."""
        stages = {wait.before for wait in self.waits_for}
        return [
            (stage, [wait for wait in self.waits_for if wait.before == stage])
            for stage in sorted(stages, key=STAGES.index)
        ]

    @property
    def is_before_cutting(self) -> bool:
        """Whether measures and comparison can still change anything."""
        return STAGES.index(self.garment.stage) < STAGES.index(Garment.Stage.CUT)


def in_dressing_order(
    garments: Sequence[Garment], standings: Iterable[GarmentStanding] = ()
) -> list[GarmentInOrder]:
    """`garments` from the skin outward."""
    waits = waits_of(worn_of(garments))
    standing_of = {standing.garment.pk: standing for standing in standings}
    return [
        GarmentInOrder(
            garment=one,
            waits_for=tuple(wait for wait in waits if wait.garment.key == one.pk),
            holds_up=tuple(wait for wait in waits if wait.on.key == one.pk),
            beneath=tuple(other for other in garments if other.order < one.order),
            standing=standing_of.get(one.pk),
        )
        for one in garments
    ]
