"""A garment compared with a proportional draft: drawn out for its wearer, and kept with what went in."""

import pytest

from catalogue.lengths.showing import Writing
from catalogue.plates.models.piece import Reading
from catalogue.plates.models.plate import Plate
from fitting.comparing.actions import compare_garment
from fitting.comparing.loading.body import MeasureOrigin
from fitting.comparing.loading.readiness import MissingMeasure
from fitting.comparing.showing.comparison import shown
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.pattern.loading.facts import known_of
from fitting.wearers.models import Take
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_draft_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_wearer,
    um,
)
from tests.makers.traced_bodice import make_traced_bodice

INCH = 25.4


@pytest.fixture
def bodice(people):
    """A draft for half a bust of 18 in, for a wearer of 39 in and 31 in."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"bust": "39 in", "waist": "31 in"}, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    return make_garment(outfit, plate=make_draft_plate(people.workroom))


def compare(garment, people):
    return compare_garment(garment, by=people.maker, at=NOON)


def test_figures_in_parts_grow_with_the_wearers_own_measure_and_plain_ones_stay(bodice, people):
    levels = compare(bodice, people).results["levels"]
    # Half a bust of 19 1/2 in on a draft for 18: 36 × 19.5 ÷ 18, and 24 × 19.5 ÷ 18 with 4 in plain.
    assert levels["bust"]["garment_mm"] == pytest.approx(39 * INCH)
    assert levels["waist"]["garment_mm"] == pytest.approx((26 + 4) * INCH)


def test_the_draft_fits_where_it_is_drawn_out_by_the_measure_that_it_is_compared_with(bodice, people):
    assert compare(bodice, people).results["levels"]["bust"]["verdict"] == "fits as drawn"


def test_the_doubt_of_the_measure_counts_once_in_the_body(bodice, people):
    Reading.objects.update(doubt_um=0)
    bodice.plate.drawing_um, bodice.plate.drawing_text = 0, "0 in"
    bodice.plate.save()
    levels = compare(bodice, people).results["levels"]
    # With nothing misread or misdrawn, what is left is 3/8 in of the body at each level.
    assert [levels[line]["u_mm"] for line in ("bust", "waist")] == pytest.approx([0.375 * INCH] * 2)


def test_the_sum_names_each_figure_as_drawn_and_as_drawn_out(bodice, people):
    found = shown(compare(bodice, people), Writing(system="in"))
    waist = next(line for line in found.lines if line.line == "waist")
    assert "front 7 in × 19 1/2 in ÷ 18 in ≈ 7 37/64 in" in waist.figures
    assert "gusset 2 in plain" in waist.figures
    # 26 in at a half bust of 19 1/2 ± 3/16 in.
    assert "A measure off by its doubt would move this ± 1/4 in." in waist.figures
    assert "a proportional draft for half bust or chest 18 in" in found.drafting
    assert "± 3/16 in, counts once, in the body" in found.drafting


def test_a_kept_comparison_still_says_what_it_was_made_from(bodice, people):
    comparison = compare(bodice, people)
    before = shown(comparison, Writing(system="in"))
    bodice.plate.pieces.all().delete()
    bodice.plate.drawn_for_um, bodice.plate.drawn_for_text = um("20 in"), "20 in"
    bodice.plate.save()
    comparison.refresh_from_db()
    assert shown(comparison, Writing(system="in")) == before


CHANGES = {
    "what it was drawn for": lambda g: Plate.objects.update(drawn_for_um=um("19 in"), drawn_for_text="19 in"),
    "a figure made plain": lambda g: Reading.objects.update(is_plain=True),
    "the wearer's measure": lambda g: Take.objects.filter(line="bust").update(value_text="38 in"),
    "it is no draft after all": lambda g: Plate.objects.update(kind="diagram"),
}  # fmt: skip


@pytest.mark.parametrize("what", CHANGES)
def test_it_is_out_of_date_once_what_it_was_drawn_out_by_changes(bodice, people, what):
    compare(bodice, people)
    CHANGES[what](bodice)
    bodice.outfit.refresh_from_db()
    assert garment_as_it_stands(bodice, by=people.maker, at=NOON).is_out_of_date


def test_a_measure_that_was_not_taken_is_named_with_the_page_to_type_it_on(bodice, people):
    Take.objects.filter(line="bust").delete()
    with pytest.raises(MissingMeasure) as fault:
        compare(bodice, people)
    assert fault.value.needed == ("bust",)
    assert "in parts of the bust or chest, which is not measured on Ottilie" in str(fault.value)
    measures = bodice.outfit.wearer.measures.get()
    assert fault.value.missing[0].address == f"/measures/{measures.pk}/change/"


def test_it_is_drawn_out_over_what_is_worn_beneath(bodice, people):
    bodice.order = 2
    bodice.save()
    make_garment(bodice.outfit, name="shirt", order=1, thickness_um=um("1 mm"), thickness_text="1 mm")
    standing = garment_as_it_stands(bodice, by=people.maker, at=NOON)
    assert standing.used.how is MeasureOrigin.BUILT_UP
    bust_mm = standing.used.lines["bust"].measure.mm
    assert bust_mm > 39 * INCH
    assert compare(bodice, people).results["levels"]["bust"]["garment_mm"] == pytest.approx(bust_mm)


def test_a_diagram_is_compared_as_before(people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    garment = make_garment(
        make_outfit(people.workroom, wearer=wearer), plate=make_bodice_plate(people.workroom)
    )
    comparison = compare(garment, people)
    assert comparison.inputs["drafting"] is None
    assert shown(comparison, Writing(system="in")).drafting == ""


def test_pattern_work_reckons_with_the_draft_as_drawn_out(bodice, people):
    known = known_of(bodice, by=people.maker, at=NOON)
    assert known.made_mm["waist"] == pytest.approx(30 * INCH)
    assert known.flat_mm["waist"] == pytest.approx(30 * INCH)
    assert known.widths_mm["front"]["bust"] == pytest.approx(9.75 * INCH)
    assert known.widths_mm["gusset"]["waist"] == pytest.approx(2 * INCH)


def test_edges_that_were_traced_are_as_long_as_on_the_draft_drawn_out(people):
    garment = make_traced_bodice(people.workroom)
    as_drawn = known_of(garment, by=people.maker, at=NOON)
    bust_mm = as_drawn.body_mm["bust"]
    Plate.objects.update(kind="draft", drawn_for_line="bust", drawn_for_um=round(bust_mm * 400))
    out = known_of(garment, by=people.maker, at=NOON)
    # Drawn for half a bust of four fifths of the wearer's half: a quarter larger.
    for before, after in zip(as_drawn.seams, out.seams, strict=True):
        assert (after.a_mm, after.b_mm) == pytest.approx((before.a_mm * 1.25, before.b_mm * 1.25), rel=1e-5)
    before, after = (of.shapes["front"].outline for of in (as_drawn, out))
    assert after[1] == pytest.approx([at * 1.25 for at in before[1]], rel=1e-5)
