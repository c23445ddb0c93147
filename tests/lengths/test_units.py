"""What units mean, against pint's own definitions, NIST and the books named beside each value."""

from fractions import Fraction

import pint
import pytest

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.units import UNITS, find_unit, mm_per, unit_names


@pytest.mark.parametrize("name", ["mm", "cm", "m", "in", "ft", "yd"])
def test_modern_units_agree_with_pints_own_definitions(name):
    oracle = pint.UnitRegistry()
    assert float(mm_per(name)) == pytest.approx(oracle.Quantity(1.0, name).to("mm").magnitude, rel=1e-12)


PUBLISHED_MM = [
    # NIST Handbook 44, Appendix C: exact since 1959.
    ("in", "25.4", 0),
    ("yd", "914.4", 0),
    # sizes.com/units/ell.htm: ells of 45, 27 and 54 in, counted in nails and quarters.
    ("nail", "57.15", 0),
    ("quarter yard", "228.6", 0),
    ("English ell", "1143", 0),
    ("Flemish ell", "685.8", 0),
    ("French ell", "1371.6", 0),
    # From memory: 941.3; piglix.com/piglix/Ell has about 37 in.
    ("Scottish ell", "941.3", 0.05),
    # Another way to the same values, from memory: the law of 10 December 1799 makes the metre 443.296 lignes.
    ("pied du roi", 144_000 / 443.296, 1e-6),
    ("pouce", 12_000 / 443.296, 1e-6),
    ("ligne", 1000 / 443.296, 1e-6),
    # aly-abbara.com, the aune of Paris of 1751: prints the point as 0.187986 and the aune as 118.84 cm.
    ("French point", "0.187986", 5e-7),
    ("aune de Paris", "1188.4", 0.05),
    # From memory: decree of 28 March 1812.
    ("aune usuelle", "1200", 0),
    # The same three by another table: 100 Frankfurt Ellen in goobi.tib.eu/viewer/fulltext/1786892642/189.
    ("Prussian Elle", 100 * 547.3 / 82.001, 0.6),
    ("Brunswick Elle", 100 * 547.3 / 95.896, 0.1),
    ("Vienna Elle", 100 * 547.3 / 70.239, 1.7),
    # Woolhouse gives the vara as 33.384 in, where the Spanish order of 1852 has 835.905 mm: 1.5 % apart.
    ("Castilian vara", 33.384 * 25.4, 13),
]


@pytest.mark.parametrize(("name", "mm", "within"), PUBLISHED_MM)
def test_units_are_what_the_published_tables_say(name, mm, within):
    assert abs(mm_per(name) - Fraction(mm)) <= within


def test_a_hundred_frankfurt_ellen_are_the_english_yards_of_the_published_table():
    # goobi.tib.eu/viewer/fulltext/1786892642/189: 59.855 English yards.
    assert float(100 * mm_per("Frankfurt Elle") / mm_per("yd")) == pytest.approx(59.855, abs=0.002)


def test_the_aune_of_paris_is_its_pieds_pouces_and_lignes():
    # aly-abbara.com: 3 pieds 7 pouces 10 5/6 lignes.
    written = 3 * mm_per("pied") + 7 * mm_per("pouce") + Fraction(65, 6) * mm_per("ligne")
    assert mm_per("aune de Paris") == written


def test_every_unit_names_its_source_and_is_a_length_of_sensible_size():
    for unit in UNITS:
        assert unit.source
        assert Fraction(1, 10) < mm_per(unit.name) < 1400, unit.name


@pytest.mark.parametrize("name", unit_names())
def test_a_unit_is_found_by_its_own_name_in_any_case(name):
    assert find_unit(name).name == name
    assert find_unit(name.upper()).name == name


def test_no_spelling_belongs_to_two_units():
    spellings = [form for unit in UNITS for form in unit.spellings.casefold().split(", ")]
    assert len(spellings) == len(set(spellings))


@pytest.mark.parametrize(
    ("spelling", "name"),
    [
        ("Inches", "in"),
        ("in.", "in"),
        ("”", "in"),
        ("nails", "nail"),
        ("quarters of a yard", "quarter yard"),
        ("aunes usuelles", "aune usuelle"),
        ("Württemberg Ellen", "Wurttemberg Elle"),
        ("varas  de Burgos", "Castilian vara"),
    ],
)
def test_plurals_and_marks_are_understood(spelling, name):
    assert find_unit(spelling).name == name


@pytest.mark.parametrize("word", ["ell", "Ells", "Elle", "aunes", "vara", "line", "quarters", "point"])
def test_a_word_for_several_lengths_is_refused_with_what_to_type(word):
    with pytest.raises(LengthNotUnderstood, match="can mean several lengths"):
        mm_per(word)
