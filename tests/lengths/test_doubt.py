"""Standard uncertainties against the Guide and against the library that carries them."""

import math

import pytest
from uncertainties import ufloat

from catalogue.lengths.calculation.doubt import doubt_parts, doubtful, two_ended_reading_u, u_of, value_of


def test_a_reading_has_the_doubt_of_both_its_ends():
    # JCGM 100:2008, F.2.2.1 (clause from memory): an end read to a division d has d/√12. 1/16 in: 0.4583 mm;
    # two ends in quadrature: √2 of it.
    division_mm = 25.4 / 16
    assert division_mm / math.sqrt(12) == pytest.approx(0.4583, abs=1e-4)
    assert two_ended_reading_u(division_mm) == pytest.approx(0.4583 * math.sqrt(2), abs=1e-4)


def test_a_take_up_is_a_second_reading():
    assert two_ended_reading_u(1.0, take_up=True) == pytest.approx(math.sqrt(2) * two_ended_reading_u(1.0))


def test_parts_add_in_quadrature():
    # A worked budget: 0.00033, 0.00029 and 0.00025 come to 0.00051 (talalspecialbolt.com, GUM page).
    total = doubtful(0.0, 0.00033, "a") + doubtful(0.0, 0.00029, "b") + doubtful(0.0, 0.00025, "c")
    assert u_of(total) == pytest.approx(0.00051, abs=5e-6)


def test_one_error_used_twice_is_twice_the_error():
    # uncertainties 3.2.3: 12.5 cm read to 0.5 cm, four times at 1:8, is 400 ± 4.6.
    read = doubtful(12.5, 0.5 / math.sqrt(12), "reading")
    by_the_library = ufloat(12.5, 0.5 / math.sqrt(12)) * 4 * 8
    assert (value_of(read * 32), u_of(read * 32)) == (by_the_library.n, pytest.approx(by_the_library.s))
    assert u_of(read + read + read + read) == pytest.approx(4 * u_of(read))


def test_a_number_without_doubt_is_a_plain_number():
    assert doubtful(3.0, 0.0, "nothing") == 3.0
    assert doubt_parts(3.0) == ()
    assert u_of(3.0) == 0.0


def test_parts_of_one_source_are_told_together():
    parts = doubt_parts(doubtful(1.0, 3.0, "drawing") + doubtful(1.0, 4.0, "drawing"))
    assert [(part.source, part.variance_mm2) for part in parts] == [("drawing", pytest.approx(25.0))]
