"""Standard uncertainties of lengths, each part named by the input it comes from.

Parts add in quadrature unless they are one and the same error (the scale of a plate, the reading of a piece
that is cut twice): the `uncertainties` package keeps track of which is which. Evaluation after JCGM 100:2008
(GUM), 4.3.7 and 5.1.2: an end that lies anywhere within one division d of a rule has d/√12.
"""

import math
from dataclasses import dataclass
from typing import Any, TypeAlias

import uncertainties  # type: ignore[import-untyped]

# A number with its standard uncertainty, or a plain number where there is none.
Doubtful: TypeAlias = Any

BOTH_ENDS = math.sqrt(6)


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtPart:
    """What one input adds to a doubt: `source` is its path in a case, `variance_mm2` its part of u²."""

    source: str
    variance_mm2: float


def doubtful(value: float, u: float, source: str) -> Doubtful:
    """A value whose error is its own: used twice, it is the same error twice."""
    # The package warns of a doubt of nothing: that is a plain number.
    return uncertainties.ufloat(value, u, source) if u > 0 else value


def value_of(number: Doubtful) -> float:
    return float(uncertainties.nominal_value(number))


def u_of(number: Doubtful) -> float:
    return float(uncertainties.std_dev(number))


def doubt_parts(number: Doubtful) -> tuple[DoubtPart, ...]:
    """The parts of u² in the order in which their inputs came in, those of one source together."""
    variances: dict[str, float] = {}
    if isinstance(number, uncertainties.UFloat):
        for variable, u in number.error_components().items():
            variances[variable.tag] = variances.get(variable.tag, 0.0) + u * u
    return tuple(DoubtPart(source=source, variance_mm2=variance) for source, variance in variances.items())


def two_ended_reading_u(division_mm: float, *, take_up: bool = False, own_u_mm: float | None = None) -> float:
    """A reading made at both ends with a rule of smallest division d: d/√6; √2 of it with a take-up too.

    `own_u_mm` is that of a dimension which no rule was held to.
    """
    u_mm = division_mm / BOTH_ENDS if own_u_mm is None else own_u_mm
    return u_mm * (math.sqrt(2) if take_up else 1.0)
