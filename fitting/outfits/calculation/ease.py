"""Ease that others have published, to start from. A figure is garment minus body; each names its source.

Published tables are for modern dress over modern underwear: none of them fills in over stays.
"""

from dataclasses import dataclass

from catalogue.lengths.calculation.units import INCH_MM

_ROBINSON = "Robinson, Central Washington University, costume text, ch. 16, “Ease in Clothing”"
_HAMILTON = "Hamilton, “Pattern Alteration”, New Mexico State University, Guide C-228, table 1"
_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class EasePreset:
    """From least to most ease at one level, for one kind of garment; no most where only a least is given."""

    garment: str
    level: str
    least_mm: float
    most_mm: float | None
    source: str


def _row(
    garment: str, level: str, least_in: float, most_in: float | None, source: str = _ROBINSON
) -> EasePreset:
    return EasePreset(
        garment=garment,
        level=level,
        least_mm=least_in * INCH_MM,
        most_mm=None if most_in is None else most_in * INCH_MM,
        source=source,
    )


OVER_MODERN_UNDERWEAR = (
    _row("bodice", "bust", 1.5, 2),
    _row("bodice", "bust", 3, 4, _HAMILTON),
    _row("dress", "waist", 0.75, 1),
    _row("skirt", "waist", 0.5, 0.75),
    _row("trousers", "waist", 0.5, 0.75),
    _row("any", "hip", 2, 2.75),
    _row("fitted shirt", "bust", 1.5, 2.5),
    _row("classic shirt", "bust", 2.5, 3),
    _row("trousers", "hip", 1.5, 2),
    _row("trousers", "thigh", 1, None),
)
# What is cut to lie on stays follows them: its ease is nearly none.
OVER_STAYS = (
    _row("bodice", "bust", 0, 0.5, _PRACTICE),
    _row("bodice", "under bust", 0, 0.5, _PRACTICE),
    _row("bodice", "waist", 0, 0.5, _PRACTICE),
)


def ease_presets(*, over_stays: bool) -> tuple[EasePreset, ...]:
    """The presets that may be offered in a state of dress."""
    return OVER_STAYS if over_stays else OVER_MODERN_UNDERWEAR
