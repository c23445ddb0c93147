"""What each unit of length means, modern and historical, and who says so.

Each row defines its unit by an earlier one. One pint registry, built without pint's own definitions (whose
"quarter" is a weight and which lacks the nail, the ell, the pouce and the aune), works the rows out as
exact fractions. Only our own definitions reach pint, never typed text: its parser misreads "1 1/2 in".
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any

from catalogue.lengths.calculation.errors import LengthNotUnderstood

INCH_MM = 25.4


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of length. `spellings` are separated by commas; [s] may be there or not.

    `family` tells which units are counted together: 5 ft 2 in is one length, 5 ft 2 cm is a slip.
    """

    name: str
    spellings: str
    definition: str
    family: str
    source: str


_INCH = "1 in = 25.4 mm exactly, international agreement of 1959; NIST Handbook 44, Appendix C"
_METRE = "International System of Units"
_ELLS = "sizes.com/units/ell.htm"
_PIED = "aly-abbara.com, the aune of Paris on its standard of 1751"
_MEYER = "Meyers Konversations-Lexikon, 6th ed., vol. 5 (1906), p. 718"
_LUEGER = "Lueger, Lexikon der gesamten Technik (1906), p. 436"
_VARA = "royal order of 9 December 1852, in sizes.com/units/vara_spain.htm"

# fmt: off
UNITS = (
    Unit("mm", "mm, millimetre[s], millimeter[s], millimètre[s]", "[length]", "metric", _METRE),
    Unit("cm", "cm, centimetre[s], centimeter[s], centimètre[s]", "10 * mm", "metric", _METRE),
    Unit("m", "m, metre[s], meter[s], mètre[s]", "1000 * mm", "metric", _METRE),
    Unit("in", "in, inch, inches, ins, \", ″, ”, “, '', ′′, ’’", "25.4 * mm", "English", _INCH),
    Unit("ft", "ft, foot, feet, ', ′, ’", "12 * in", "English", _INCH),
    Unit("yd", "yd, yds, yard[s]", "3 * ft", "English", _INCH),
    Unit("nail", "nail[s], nails of a yard",
         "yd / 16", "English", f"{_ELLS}: 20 nails make the ell of 45 in"),
    Unit("quarter yard", "quarter yard[s], quarter[s] of a yard, cloth quarter[s], quarter[s] of cloth",
         "yd / 4", "English", f"{_ELLS}: the quarter of 9 in"),
    Unit("English ell", "English ell[s], ell[s] English", "20 * nail", "English", f"{_ELLS}: 45 in"),
    Unit("Flemish ell", "Flemish ell[s], ell[s] Flemish", "12 * nail", "English", f"{_ELLS}: 27 in"),
    Unit("French ell", "French ell[s], ell[s] French", "24 * nail", "English", f"{_ELLS}: 6 quarters, 54 in"),
    Unit("Scottish ell", "Scottish ell[s], Scots ell[s]",
         "37.0598 * in", "English", "about 37 in: piglix.com/piglix/Ell; the decimals from memory"),
    Unit("pied du roi", "pied[s] du roi, pied[s] de roi, pied[s]", "324.839385 * mm", "French", _PIED),
    Unit("pouce", "pouce[s], pouce[s] du roi", "pied_du_roi / 12", "French", _PIED),
    Unit("ligne", "ligne[s], ligne[s] du roi", "pouce / 12", "French", _PIED),
    Unit("French point", "French point[s], point[s] du roi", "ligne / 12", "French", _PIED),
    Unit("aune de Paris", "aune[s] de Paris, Paris aune[s]",
         "6322 * French_point", "French", f"3 pieds 7 pouces 10 5/6 lignes, {_PIED}"),
    Unit("aune usuelle", "aune[s] usuelle[s]", "1200 * mm", "", "decree of 28 March 1812; from memory"),
    Unit("Prussian Elle", "Prussian Elle[n], Berlin Elle[n]", "666.94 * mm", "", f"25 1/2 Zoll, {_MEYER}"),
    Unit("Vienna Elle", "Vienna Elle[n], Viennese Elle[n]", "777.6 * mm", "", _MEYER),
    Unit("Brunswick Elle", "Brunswick Elle[n]", "570.7 * mm", "", "de.wikipedia.org, Elle (oldid 53498775)"),
    Unit("Saxon Elle", "Saxon Elle[n], Saxony Elle[n]", "566.38 * mm", "", f"{_MEYER}; {_LUEGER} has 565.4"),
    Unit("Hanover Elle", "Hanover Elle[n]", "584.19 * mm", "", _MEYER),
    Unit("Hamburg Elle", "Hamburg Elle[n]", "573.14 * mm", "", _MEYER),
    Unit("Frankfurt Elle", "Frankfurt Elle[n]", "547.3 * mm", "", _MEYER),
    Unit("Bavarian Elle", "Bavarian Elle[n], Bavaria Elle[n]", "833.01 * mm", "", _MEYER),
    Unit("Wurttemberg Elle", "Wurttemberg Elle[n], Württemberg Elle[n]", "614.24 * mm", "", _MEYER),
    Unit("Nuremberg Elle", "Nuremberg Elle[n]", "656.5 * mm", "", _MEYER),
    Unit("Bohemian Elle", "Bohemian Elle[n], Bohemia Elle[n]", "593.97 * mm", "", _MEYER),
    Unit("Baden Elle", "Baden Elle[n]", "600 * mm", "", _MEYER),
    Unit("Brabant Elle", "Brabant Elle[n], Brabant ell[s]", "695 * mm", "", f"{_MEYER}: 695 to 696"),
    Unit("Danish alen", "Danish alen, Danish Elle[n]", "627.7 * mm", "", _MEYER),
    Unit("Swedish aln", "Swedish aln, Swedish Elle[n]", "593.8 * mm", "", _MEYER),
    Unit("Castilian vara", "Castilian vara[s], vara[s] of Castile, vara[s] de Castilla, vara[s] de Burgos",
         "835.905 * mm", "", f"{_VARA}; Woolhouse has 33.384 in"),
    Unit("Madrid vara", "Madrid vara[s], vara[s] de Madrid", "843 * mm", "", _VARA),
    Unit("Aragon vara", "Aragon vara[s], vara[s] de Aragon, vara[s] de Aragón", "772 * mm", "", _VARA),
    Unit("Valencia vara", "Valencia vara[s], vara[s] de Valencia", "906 * mm", "", _VARA),
    Unit("Canary vara", "Canary vara[s], vara[s] de Canarias", "842 * mm", "", _VARA),
)
# fmt: on

# Words that meant different lengths in different hands: guessing would be a silent error of up to four times.
AMBIGUOUS = {
    "line[s]": "an inch was cut into 8, 10 or 12 lines: type a fraction of an inch, or lignes",
    "quarter[s]": "type quarter yards for the cloth measure of 9 in, or a fraction of the unit meant",
    "point[s]": "type French points for a twelfth of a ligne, or a fraction of an inch",
    "ell[s]": "say which: English ells (45 in), Flemish ells (27 in), French ells (54 in) or Scottish ells",
    "elle[n]": "say whose, for example Prussian Elle, Vienna Elle or Saxon Elle",
    "aune[s]": "say which: aunes de Paris (1188 mm) or aunes usuelles (1200 mm)",
    "vara[s]": "say whose, for example Castilian varas or Valencia varas",
}


def _each_spelling(spellings: str) -> set[str]:
    """Expand "ell[s] English, m" to the forms that are typed, in lower case."""
    forms = spellings.casefold().split(", ")
    without = {re.sub(r"\[\w+]", "", form) for form in forms}
    return without | {form.replace("[", "").replace("]", "") for form in forms}


_BY_SPELLING = {spelling: unit for unit in UNITS for spelling in _each_spelling(unit.spellings)}
_WHICH = {spelling: advice for word, advice in AMBIGUOUS.items() for spelling in _each_spelling(word)}


@cache
def _registry() -> Any:
    # Imported here: pint takes a tenth of a second, which a page without lengths need not wait for.
    import pint

    registry: Any = pint.UnitRegistry(None, non_int_type=Fraction)
    for unit in UNITS:
        registry.define(f"{_pint_name(unit)} = {unit.definition}")
    return registry


def _pint_name(unit: Unit) -> str:
    return unit.name.replace(" ", "_")


@lru_cache(maxsize=512)
def find_unit(spelling: str) -> Unit:
    """The unit a person means by `spelling`: any case, singular, plural or short, full stop or not.

    Raises LengthNotUnderstood for a word that is no unit of length or that means several.
    """
    word = " ".join(spelling.casefold().split()).removesuffix(".")
    unit = _BY_SPELLING.get(word)
    if unit is not None:
        return unit
    if word in _WHICH:
        raise LengthNotUnderstood(f"“{word}” can mean several lengths: {_WHICH[word]}.")
    raise LengthNotUnderstood(
        f"“{spelling}” is not a unit of length known here: type in, ft, yd, nails, cm, mm, pouces or lignes."
    )


@lru_cache(maxsize=512)
def mm_per(unit_name: str) -> Fraction:
    """Exact millimetres in one of the named unit; any spelling `find_unit` knows."""
    quantity = _registry().Quantity(1, _pint_name(find_unit(unit_name))).to("mm")
    return Fraction(quantity.magnitude)


def unit_names() -> tuple[str, ...]:
    """The chosen name of every unit, in the order of the table."""
    return tuple(unit.name for unit in UNITS)
