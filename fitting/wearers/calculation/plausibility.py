"""Measures that few bodies have: a slip of the pen, the rule or the unit, asked about and never refused.

The limits are our own: wide about the bodies of Heinz and others (2003) and, from memory, about children from
two years on, large bodies and laced ones. Each doubt is a question: a wearer who is so keeps the figure.
"""

from collections.abc import Collection, Iterator, Mapping
from types import MappingProxyType

from catalogue.lengths.calculation.errors import Fault
from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.lengths.calculation.levels import LINES

NONE: Mapping[str, float] = MappingProxyType({})
NO_SIDES: Mapping[str, tuple[float, float]] = MappingProxyType({})

# Least and most, in centimetres.
LIMITS_CM = {
    "head": (42, 70),
    "neck": (20, 70),
    "neck base": (22, 80),
    "high bust": (42, 185),
    "bust": (42, 200),
    "under bust": (42, 185),
    "waist": (40, 200),
    "hip": (42, 215),
    "armhole": (20, 80),
    "upper arm": (12, 70),
    "elbow": (12, 60),
    "wrist": (9, 30),
    "hand": (11, 36),
    "thigh": (24, 110),
    "knee": (18, 80),
    "calf": (16, 70),
    "ankle": (12, 45),
    "height": (75, 230),
    "shoulder": (5, 22),
    "nape to waist": (17, 60),
    "front waist": (17, 80),
    "sleeve": (20, 90),
    "inside leg": (15, 110),
    "outside leg": (20, 140),
}

# The first measure divided by the second: least and most.
RATIOS = (
    ("waist", "hip", 0.43, 1.45),
    ("waist", "bust", 0.45, 1.15),
    ("bust", "hip", 0.55, 1.50),
    ("high bust", "bust", 0.75, 1.15),
    ("under bust", "bust", 0.60, 1.10),
    ("neck", "bust", 0.20, 0.65),
    ("upper arm", "bust", 0.18, 0.62),
    ("armhole", "upper arm", 0.95, 2.20),
    ("elbow", "upper arm", 0.60, 1.40),
    ("wrist", "upper arm", 0.30, 0.90),
    ("hand", "wrist", 1.00, 1.90),
    ("thigh", "hip", 0.40, 0.90),
    ("knee", "thigh", 0.40, 1.10),
    ("calf", "knee", 0.65, 1.50),
    ("ankle", "calf", 0.40, 1.00),
    ("wrist", "ankle", 0.45, 1.20),
    ("waist", "height", 0.26, 1.20),
    ("hip", "height", 0.34, 1.25),
    ("nape to waist", "height", 0.15, 0.35),
    ("sleeve", "height", 0.24, 0.48),
    ("inside leg", "outside leg", 0.45, 0.97),
)

METRIC = ("cm", "mm", " m")  # how the text of a metric length ends
MOST_SIDES_APART = 0.2  # of the smaller side


def doubts_of_girths(
    girths_mm: Mapping[str, float],
    lengths_mm: Mapping[str, float] = NONE,
    *,
    sides_mm: Mapping[str, tuple[float, float]] = NO_SIDES,
    system: System = "in",
    metric: Collection[str] | None = None,
) -> tuple[Fault, ...]:
    """What to ask about one set of body measures, by the keys of `levels.LINES`; keys without a limit pass.

    `sides_mm` holds left and right of what was taken apart; `system` is the units the sentences speak in;
    `metric` names what was typed in centimetres, where that is known: else all of it was typed in `system`.
    """
    measures_mm = {**girths_mm, **lengths_mm}
    if metric is None:
        metric = measures_mm.keys() if system == "cm" else ()
    beyond = tuple(_beyond_limits(measures_mm, system, metric))
    # One wild figure upsets every ratio it is in: only figures within their limits are compared.
    wild = {fault.where for fault in beyond}
    calm_mm = {key: mm for key, mm in measures_mm.items() if key not in wild}
    return (*beyond, *_out_of_proportion(calm_mm, system), *_sides_apart(sides_mm, system))


def _beyond_limits(
    measures_mm: Mapping[str, float], system: System, metric: Collection[str]
) -> Iterator[Fault]:
    for key, mm in measures_mm.items():
        least, most = LIMITS_CM.get(key, (0, float("inf")))
        if least * 10 <= mm <= most * 10:
            continue
        small = mm < least * 10
        fault = f"{format_length(mm, system=system)} is very {'small' if small else 'large'} for this measure"
        meant = mm * 2.54 if small else mm / 2.54
        # Inches typed as centimetres come out small, centimetres typed as inches large.
        could_slip = small == (key in metric)
        if could_slip and least * 10 <= meant <= most * 10:
            typed, instead = ("centimetres", "inches") if small else ("inches", "centimetres")
            yield Fault(key, f"{fault}: were {instead} typed as {typed}?")
        else:
            yield Fault(key, f"{fault}: measure again, or keep it if it is so.")


def _out_of_proportion(measures_mm: Mapping[str, float], system: System) -> Iterator[Fault]:
    for key, other, least, most in RATIOS:
        if key not in measures_mm or other not in measures_mm:
            continue
        ratio = measures_mm[key] / measures_mm[other]
        if not least <= ratio <= most:
            size = "small" if ratio < least else "large"
            shown, beside = (format_length(measures_mm[line], system=system) for line in (key, other))
            is_so_exchanged = least <= 1 / ratio <= most
            asked = "were the two exchanged? Else check" if is_so_exchanged else "check"
            yield Fault(
                key,
                f"{shown} is very {size} beside {LINES[other].label} {beside}: {asked} the unit and "
                "the figures of both, or keep them if they are so.",
            )


def _sides_apart(sides_mm: Mapping[str, tuple[float, float]], system: System) -> Iterator[Fault]:
    for key, (left, right) in sides_mm.items():
        if max(left, right) > (1 + MOST_SIDES_APART) * min(left, right):
            shown = (format_length(side, system=system) for side in (left, right))
            yield Fault(
                key,
                "left {} and right {} are far apart: check both, or keep them if they are so.".format(*shown),
            )
