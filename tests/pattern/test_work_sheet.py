"""Sheets of pattern work: their numbers are the pure modules', nothing typed is lost, what is kept stays."""

import math

import pytest

from fitting.pattern.calculation.sums.bias import bias_strips, piping_strip_mm, square_for_mm
from fitting.pattern.calculation.sums.circle import circle_skirt
from fitting.pattern.calculation.sums.fastening import crossed_lace_mm, even_row
from fitting.pattern.calculation.sums.gathers import gathers
from fitting.pattern.calculation.sums.pleats import Pleat, PleatGivens, pleats
from fitting.pattern.calculation.sums.shares import equal_shares, gores
from fitting.pattern.calculation.sums.strips import strips
from fitting.pattern.calculation.sums.support import Train, skirt_lengths
from fitting.pattern.calculation.sums.table import PAGES
from fitting.pattern.calculation.sums.tiers import tiers
from fitting.pattern.calculation.sums.tucks import TuckGivens, tucks
from fitting.pattern.models import WorkNote, work_kinds
from tests.makers.kept_work import make_seamed_bodice

INCH = 25.4
HALF_CIRCLE = circle_skirt(waist_mm=711.2, length_mm=1016.0, part=0.5)
PLEATS = {"pleat": "box", "finished": "28 in", "width": "2 in", "depth": "1 in"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    return make_seamed_bodice(people.workroom)


def figures(client, garment, kind, typed):
    answer = client.post(f"/garments/{garment.pk}/work/{kind}/", typed)
    assert answer.context["sheet"].errors == {}
    return answer.context["worked"].figures


def of_pleats():
    row = pleats(Pleat.BOX, PleatGivens(finished=28 * INCH, width=2 * INCH, depth=INCH))
    return {"number": 14, "flat": row.flat_mm, "ratio": row.ratio}


def of_gathers():
    cut = strips(60 * INCH, cloth_width_mm=22 * INCH, depth_mm=6 * INCH, join_mm=INCH / 4)
    return {
        "flat": gathers(finished_mm=30 * INCH, ratio=2).flat_mm,
        "strips": cut.number,
        "cloth": cut.cloth_mm,
    }


def of_gores():
    given = {"waist_mm": 28 * INCH, "hip_mm": 42 * INCH, "hem_mm": 120 * INCH, "length_mm": 40 * INCH}
    gore = gores(equal_shares(6), **given, hip_depth_mm=7 * INCH)[0]
    return {"gore, hem curve": gore.piece.hem_curve_mm, "gore, swell": gore.swell_each_mm}


def of_support():
    heights = [(at / 8, inches * INCH) for at, inches in ((0, 40), (2, 41), (4, 42), (6, 43), (8, 44))]
    train = Train(length_mm=20 * INCH, from_place=0.5)
    lengths = skirt_lengths(heights, clearance_mm=INCH, train=train)
    return {"longest": lengths.longest_mm, "at 0.625": lengths.at(0.625)}


def of_fastening():
    row = even_row(12 * INCH, spacing_mm=INCH, first_mm=INCH / 2, last_mm=INCH / 2)
    return {"count": row.count, "crossed lace": crossed_lace_mm(row, across_mm=8 * INCH, ends_mm=12 * INCH)}


# fmt: off
CASES = {
    "pleats": (PLEATS, of_pleats),
    "gathers": ({"finished": "30 in", "ratio": "2", "cloth_width": "22 in", "strip_depth": "6 in",
                 "join": "1/4 in"}, of_gathers),
    "tiers": ({"top": "28 in", "ratio": "1.5", "number": "3"},
              lambda: {"hem": tiers(top_mm=28 * INCH, ratio=1.5, number=3).hem_mm}),
    "tucks": ({"finished": "10 in", "spacing": "1 in", "depth": "1/4 in"},
              lambda: {"flat": tucks(TuckGivens(finished=254.0, spacing=INCH, depth=INCH / 4)).flat_mm}),
    "circle": ({"waist": "28 in", "length": "40 in", "part": "0.5"},
               lambda: {"inner radius": HALF_CIRCLE.seam_line.inner_mm}),
    "gores": ({"waist_mm": "28 in", "hip_mm": "42 in", "hem_mm": "120 in", "length_mm": "40 in",
               "hip_depth_mm": "7 in", "number": "6"}, of_gores),
    "support": ({"height-0": "40 in", "height-2": "41 in", "height-4": "42 in", "height-6": "43 in",
                 "height-8": "44 in", "clearance": "1 in", "train": "20 in", "train_from": "0.5"},
                of_support),
    "bias": ({"total_mm": "100 in", "strip_mm": "2 in", "seam_mm": "1/4 in", "width_mm": "45 in"},
             lambda: {"square": square_for_mm(total_mm=100 * INCH, strip_mm=2 * INCH, seam_mm=INCH / 4),
                      "cloth": bias_strips(100 * INCH, cloth_width_mm=45 * INCH, strip_mm=2 * INCH,
                                           seam_mm=INCH / 4).cloth_mm}),
    "piping": ({"cord_mm": "1/8 in", "allowance_mm": "1/2 in", "length_mm": "40 in"},
               lambda: {"strip": piping_strip_mm(cord_mm=INCH / 8, allowance_mm=INCH / 2)}),
    "boning": ({"bone_width": "1/4 in", "sides": "2", "channel-0": "12 in", "channel-4": "10 in"},
               lambda: {"bones": 4, "total": 2 * (11.5 + 9.5) * INCH, "channel width": 3 / 8 * INCH}),
    "fastening": ({"length": "12 in", "spacing_mm": "1 in", "first_mm": "1/2 in", "last_mm": "1/2 in",
                   "gap_mm": "8 in", "ends_mm": "12 in"}, of_fastening),
    "sewing": ({"sample_mm": "10 in", "minutes": "20", "per_inch": "10", "length-1": "60 in", "times-1": "2"},
               lambda: {"hours": 120 * 10 / (100 / 20) / 60}),
    "sleeve": ({"head_front_mm": "8 in", "head_back_mm": "9 in", "armhole_front_mm": "8 in",
                "armhole_back_mm": "8 in", "ease_back_mm": "1/2 in"},
               lambda: {"front, off": 0.0, "back, off": INCH / 2, "head": 17 * INCH}),
    "seams": ({"name-1": "side seam", "first-1": "8 in", "second-1": "7 in"}, lambda: {"side seam": INCH}),
}
# fmt: on


def test_every_sheet_has_a_case_here_or_a_test_of_its_own():
    assert {*CASES, "alteration"} == set(PAGES)
    assert set(PAGES) <= set(dict(work_kinds()))


@pytest.mark.parametrize("kind", CASES)
def test_a_sheet_comes_to_what_the_calculation_does(maker, bodice, kind):
    typed, reckoned = CASES[kind]
    shown = figures(maker, bodice, kind, typed)
    for name, wanted in reckoned().items():
        assert math.isclose(shown[name], wanted, abs_tol=1e-6), name


@pytest.mark.parametrize("kind", PAGES)
def test_a_sheet_opens_filled_and_says_what_it_is(maker, bodice, kind):
    page = maker.get(f"/garments/{bodice.pk}/work/{kind}/").content.decode()
    assert PAGES[kind].says in page
    assert "<script>" not in page


# NIMI (India), CITS Dress Making Trade Practical, p. 188: 236 cm of pleats from cloth 88 cm wide, 3 strips.
@pytest.mark.parametrize(
    ("kind", "typed", "strips_in_all"),
    [
        ("pleats", {"pleat": "knife", "finished": "92 cm", "width": "5 cm", "depth": "4 cm"}, 3),
        ("tucks", {"finished": "200 cm", "number": "9", "depth": "2 cm"}, 3),
        ("tiers", {"top": "80 cm", "ratio": "1.5", "number": "2"}, 5),
    ],
)
def test_strips_are_cut_for_whatever_is_flat(maker, bodice, kind, typed, strips_in_all):
    shown = figures(maker, bodice, kind, {**typed, "cloth_width": "88 cm", "strip_depth": "30 cm"})
    assert shown["cloth"] == pytest.approx(strips_in_all * 300)


def test_a_kind_that_is_none_is_not_found(maker, bodice):
    assert maker.get(f"/garments/{bodice.pk}/work/horoscope/").status_code == 404


def test_the_sum_is_written_as_a_person_would_write_it_in_their_unit(maker, people, bodice):
    at = f"/garments/{bodice.pk}/work/pleats/"
    assert "28 in + 4 × 14 × 1 in = 84 in" in maker.post(at, PLEATS).content.decode()
    people.maker.system = "cm"
    people.maker.save()
    assert "71.1 cm + 4 × 14 × 2.5 cm = 213.4 cm" in maker.post(at, PLEATS).content.decode()


def test_a_fault_stands_beside_its_box_and_nothing_typed_is_lost(maker, bodice):
    typed = {**PLEATS, "depth": "a little", "flat": "1 1/2 yd"}
    answer = maker.post(f"/garments/{bodice.pk}/work/pleats/", {**typed, "keep": "1"})
    assert set(answer.context["sheet"].errors) == {"depth"}
    for text in ("a little", "1 1/2 yd", "28 in"):
        assert f'value="{text}"' in answer.content.decode()
    assert not WorkNote.objects.exists()


def test_a_fault_of_the_calculation_stands_beside_the_box_it_names(maker, bodice):
    answer = maker.post(f"/garments/{bodice.pk}/work/pleats/", {**PLEATS, "number": "14", "width": "3 in"})
    assert "does not agree" in answer.context["sheet"].errors["width"][0]


def test_what_is_kept_stays_as_it_was_and_fills_the_boxes_again(maker, people, bodice):
    maker.post(f"/garments/{bodice.pk}/work/pleats/", {**PLEATS, "keep": "1"})
    note = bodice.work_notes.get()
    assert (note.made_by, note.wearer) == (people.maker, bodice.outfit.wearer)
    assert note.results["figures"]["number"] == 14
    assert "28 in + 4 × 14 × 1 in = 84 in" in maker.get(f"/work/{note.pk}/").content.decode()
    again = maker.get(f"/garments/{bodice.pk}/work/pleats/?from={note.pk}").content.decode()
    assert 'value="28 in"' in again
    maker.post(f"/work/{note.pk}/delete/")
    assert not bodice.work_notes.exists()
