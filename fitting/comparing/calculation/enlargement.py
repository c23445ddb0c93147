"""Enlarging is not grading: what one factor for the whole plate, right at one level, does to the others."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.plates.calculation.girth import FullSize
from fitting.comparing.calculation.comparison import ComparedLines, LineComparison


@dataclass(frozen=True, slots=True, kw_only=True)
class EnlargedMeasure:
    """A level or length once the drawn cloth is enlarged; no difference where it is gathered."""

    garment_mm: float
    difference_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainEnlargement:
    """`factor` enlarges the drawn cloth only: allowance, overlap and lacing gap keep their full size."""

    factor: float
    made_to_fit: str
    levels: Mapping[str, EnlargedMeasure]
    lengths: Mapping[str, EnlargedMeasure]


def plain_enlargement(comparison: ComparedLines, made_to_fit: str | None = None) -> PlainEnlargement | None:
    """Enlarge so that one level fits: the one asked for, else the one that is farthest from what is wanted.

    None where no level is compared, or where no cloth of that level could be enlarged to fit.
    """
    compared = {line.line: line for line in comparison.levels if line.chances is not None}
    if not compared:
        return None
    fitted = (
        compared[made_to_fit]
        if made_to_fit
        else max(compared.values(), key=lambda line: round(abs(line.difference_mm), 6))
    )
    needed_mm = fitted.wanted_mm - (fitted.full_size.mm - fitted.full_size.drawn_mm)
    if needed_mm <= 0 or fitted.full_size.drawn_mm <= 0:
        return None
    factor = needed_mm / fitted.full_size.drawn_mm
    return PlainEnlargement(
        factor=factor,
        made_to_fit=fitted.line,
        levels={line.line: _enlarged(line, factor) for line in comparison.levels},
        lengths={line.line: _enlarged(line, factor) for line in comparison.lengths},
    )


def _enlarged(line: LineComparison, factor: float) -> EnlargedMeasure:
    garment_mm = _enlarged_mm(line.full_size, factor)
    return EnlargedMeasure(
        garment_mm=garment_mm,
        difference_mm=garment_mm - line.wanted_mm if line.chances is not None else None,
    )


def _enlarged_mm(full_size: FullSize, factor: float) -> float:
    return factor * full_size.drawn_mm - full_size.taken_by_seams_mm - full_size.overlap_mm + full_size.gap_mm
