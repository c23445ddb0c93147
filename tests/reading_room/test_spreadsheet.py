"""Tables that a spreadsheet opens and does not run. Dangerous first characters: OWASP, CSV Injection."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.plates.models.piece import Reading
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.models import Workroom
from catalogue.workroom.spreadsheet import BYTE_ORDER_MARK, safe
from tests.makers.full_workroom import fill_workroom


@pytest.fixture
def workroom(db) -> Workroom:
    return fill_workroom(Workroom.objects.create(name="Attic table"))


def rows(text: str) -> list[dict[str, str]]:
    assert text.startswith(BYTE_ORDER_MARK)
    return list(csv.DictReader(io.StringIO(text.removeprefix(BYTE_ORDER_MARK), newline="")))


def test_each_garment_is_a_row_with_its_dates_and_sources(workroom):
    KINDS[ReferenceGarment].spreadsheet.write(workroom, to := io.StringIO())
    first, second = rows(to.getvalue())
    assert (first["name"], first["earliest"], first["tags"]) == (
        "back-laced bodice",
        "1785-01-01",
        "Zug; loan",
    )
    assert first["sources"] == "Cut and Cloth, 7"
    assert second["date"] == ""


def test_each_reading_is_a_row_as_typed_and_in_millimetres(workroom):
    KINDS[Reading].spreadsheet.write(workroom, to := io.StringIO())
    read = {(row["piece"], row["level or length"]): row for row in rows(to.getvalue())}
    assert read["back", "waist"]["reading as typed"] == "5/8 in"
    # 5/8 in: an inch is 25.4 mm exactly (the international yard, 1959).
    assert float(read["back", "waist"]["reading in mm"]) == 15.875
    assert float(read["back", "bust"]["reading in mm"]) == 25.401


def test_a_reading_of_a_proportional_draft_says_of_what_it_is_in_parts(workroom):
    KINDS[Reading].spreadsheet.write(workroom, to := io.StringIO())
    read = {(row["piece"], row["level or length"]): row for row in rows(to.getvalue())}
    assert read["front", "bust"]["draft for"] == "half bust or chest 18 in"
    assert read["front", "bust"]["in parts or plain"] == "in parts"
    assert read["back", "bust"]["in parts or plain"] == "plain"


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "＝1", "\n=1"])
def test_what_a_spreadsheet_would_run_is_led_by_an_apostrophe(cell):
    assert safe(cell) == f"'{cell}"


def test_a_name_typed_as_a_formula_stays_a_name(workroom):
    workroom.references.filter(name="second bodice").update(name='=HYPERLINK("https://x.example","y")')
    KINDS[ReferenceGarment].spreadsheet.write(workroom, to := io.StringIO())
    assert rows(to.getvalue())[1]["name"].startswith("'=HYPERLINK")


@given(st.text())
def test_no_text_starts_a_formula(text):
    assert not str(safe(text)).startswith(("=", "+", "-", "@", "\t", "\r"))


@pytest.mark.parametrize("number", [-3, 2.5, 0])
def test_a_number_stays_a_number(number):
    assert safe(number) == number
