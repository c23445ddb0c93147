"""Where a garment of an outfit lies on the body, and how thick, out of its row."""

from collections.abc import Mapping

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import NO_LENGTH
from catalogue.references.models.garment import Dress
from fitting.outfits.calculation.garment import Fit
from fitting.outfits.models.garment import Garment
from fitting.wearers.calculation.layers import (
    LAYER_KINDS,
    Layer,
    LayerKind,
    layer_kind_named,
    thicknesses_at,
)

TRUNK = ("high bust", "bust", "under bust", "waist", "hip")
# When skirts of women's dress hung from a band under the bust; common practice, no source.
HIGH_WAISTED = range(1795, 1821)
UNDER_BUST = ("under bust", "waist", "hip")


def kind_of(garment: Garment) -> LayerKind | None:
    """As it is stated; else as its own name says, or what the garment of its plate is."""
    if garment.kind:
        return LAYER_KINDS[garment.kind]
    if garment.is_boned:
        return LAYER_KINDS["stays or corset"]
    named = layer_kind_named(garment.name)
    return named or (layer_kind_named(garment.plate.reference.kind) if garment.plate else None)


def is_a_shift(garment: Garment) -> bool:
    kind = kind_of(garment)
    return kind is not None and kind.key == "shift or shirt"


def must_be_taped_over(garment: Garment) -> bool:
    kind = kind_of(garment)
    return kind is not None and kind.must_be_taped_over


def band_of(garment: Garment) -> str:
    """The level that its band sits at; empty where it hangs from none."""
    kind = kind_of(garment)
    if garment.band_at or kind is None or not kind.band:
        return garment.band_at
    reference = garment.plate.reference if garment.plate else None
    is_high = (
        reference is not None
        and reference.dress == Dress.WOMENS
        and reference.date_earliest is not None
        and reference.date_earliest.year in HIGH_WAISTED
        and kind.key in ("petticoat", "skirt")
    )
    return "under bust" if is_high else kind.band


def levels_of(garment: Garment) -> frozenset[str]:
    """The levels it covers: as stated; else of its kind, from its band down, and where it is read or eased.

    Prefetch `eases` and `plate__pieces__readings`.
    """
    if garment.lies_at:
        return frozenset(garment.lies_at)
    kind = kind_of(garment)
    covers = set(kind.covers if kind else ())
    if band := band_of(garment):
        order = list(LINES)
        covers = {line for line in {*covers, band} if order.index(line) >= order.index(band)}
        covers |= set(UNDER_BUST) if band == "under bust" else set()
    pieces = garment.plate.pieces.all() if garment.plate else ()
    read = {reading.line for piece in pieces for reading in piece.readings.all()}
    eases: Mapping[str, str] = {ease.line: ease.fit for ease in garment.eases.all()}
    covers |= (read | set(eases)) & set(TRUNK)
    return frozenset(covers) - {line for line, fit in eases.items() if fit == Fit.NOT_THERE}


def layer_at(garment: Garment, line: str, *, widening: float = 1.0, is_own: bool = False) -> Layer:
    """The garment as it lies at that level. `widening`: the body's girth there over that at its band."""
    kind, band = kind_of(garment), band_of(garment)
    share = garment.arc_percent
    return Layer(
        name="its own cloth" if is_own else garment.name,
        thickness_mm=(garment.thickness or NO_LENGTH).mm,
        thicknesses=thicknesses_at(
            layers=garment.layers,
            gather_ratio=garment.gather_ratio,
            has_band=bool(band),
            is_at_band=line == band,
            is_gauged=garment.is_gauged,
            widening=widening,
        ),
        arc=share / 100 if share else kind.arc if kind else 1.0,
        is_boned=garment.is_boned,
        is_own=is_own,
        is_tied=bool(kind and kind.is_tied and line == (band or "waist")),
    )
