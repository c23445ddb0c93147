"""Sums as a person would write them down: front 2 × 8 × (3/4 in − 1/16 in) + gap 1 in = 12 in.

Text is for reading and rounds where it must, with ≈ in place of =; what is reckoned with is never rounded.
"""

from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.plates.calculation.girth import FullSize, Term

_CLOSE_MM = 1e-6


def full_size_text(mm: float, system: System = "in") -> str:
    """A length as cut: to the nearest 1/16 in, or to a millimetre in centimetres."""
    return format_length(mm, system=system)


def page_text(mm: float, system: System = "in") -> str:
    """A length on the page: exactly to 1/64 in, or to a tenth of a millimetre in centimetres."""
    if system == "cm":
        tenths = f"{mm / 10:.2f}"
        return f"{tenths.removesuffix('0')} cm"
    return format_length(mm, system="in", denominator=64)


def sum_text(full_size: FullSize, system: System = "in") -> str:
    """The sum behind a girth or length, and what it comes to."""
    parts = [_term_text(term, system, named=len(full_size.terms) > 1) for term in full_size.terms]
    text = " + ".join(parts)
    if full_size.overlap_mm:
        text += f" − overlap {full_size_text(full_size.overlap_mm, system)}"
    if full_size.gap_mm:
        text += f" + gap {full_size_text(full_size.gap_mm, system)}"
    result = full_size_text(full_size.mm, system)
    return f"{text} {'=' if _is_exact(full_size.mm, system) else '≈'} {result}"


def _term_text(term: Term, system: System, *, named: bool) -> str:
    page = page_text(term.reading.length_mm, system)
    if term.reading.take_up_mm:
        page = f"({page} − {page_text(term.reading.take_up_mm, system)})"
    drawn = f"{_factor_text(term.factor)} × {page}"
    if term.taken_by_seams_mm:
        seams = full_size_text(term.allowance_mm, system)
        drawn = f"{drawn} − {term.edges} × {seams}" if term.edges > 1 else f"{drawn} − {seams}"
        drawn = f"({drawn})" if term.times > 1 else drawn
    times = f"{term.times} × " if term.times > 1 else ""
    return f"{term.name} {times}{drawn}" if named else f"{times}{drawn}"


def _factor_text(factor: float) -> str:
    return f"{factor:.5g}"


def _is_exact(mm: float, system: System) -> bool:
    step_mm = 25.4 / 16 if system == "in" else 1.0
    return abs(mm - round(mm / step_mm) * step_mm) < _CLOSE_MM
