"""A lay of the newest version of the working pattern, with the allowances that were set for its pieces."""

from dataclasses import replace

import pytest
from shapely import Polygon

from catalogue.workroom.work.engine import do_in_turn
from fitting.laying.loading.orders import lay_request
from fitting.laying.loading.pieces import pieces_of_pattern
from fitting.laying.models import Lay
from fitting.pattern.calculation.sheets.sheet import Allowances
from fitting.pattern.calculation.working.pattern import Pattern
from tests.makers.rows import make_garment, make_outfit
from tests.makers.traced_bodice import make_traced_bodice
from tests.makers.working_pattern import BACK, FRONT, PATTERN, make_version

HALF_INCH = Allowances(usual_mm=12.7, by_edge={})
CLOTH = {
    "width_1": "45 in", "selvedge": "1/4 in", "direction": "two-way", "folded": "open",
    "unit": "1/8 yd", "allowance": "1/2 in", "seconds": "1", "cut front": "2", "cut back": "1",
}  # fmt: skip


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def size(outline) -> tuple[float, float]:
    left, low, right, high = Polygon(outline).bounds
    return right - left, high - low


def test_a_piece_is_cut_by_its_own_allowances_and_one_without_any_by_the_usual():
    """The front: 10 + 315 + 25 wide, 10 + 600 + 10 high. The back opened: twice 265, and 1/2 in all round."""
    front, back = pieces_of_pattern(PATTERN, "outer")
    assert size(front.lines(HALF_INCH).cut_outline) == pytest.approx((350, 620), abs=0.2)
    assert size(front.lines(HALF_INCH).outline) == pytest.approx((315, 600), abs=0.2)
    assert size(back.lines(HALF_INCH).cut_outline) == pytest.approx((555.4, 625.4), abs=0.2)
    assert (front.is_pair, back.is_pair) == (True, False)


def test_a_piece_is_mirrored_by_what_was_said_of_it_and_laid_on_its_own_cloth():
    same = replace(FRONT, name="pocket", mirrored=False, cloth="lining")
    (pocket,) = pieces_of_pattern(Pattern(pieces=(FRONT, same)), "lining")
    assert (pocket.name, pocket.cut, pocket.is_pair) == ("pocket", 2, False)


def test_half_a_piece_that_marks_no_fold_is_the_box_about_the_whole():
    bare = replace(BACK, marks=())
    (box,) = pieces_of_pattern(Pattern(pieces=(bare,)), "outer")
    assert not box.is_traced
    assert (box.width_mm, box.length_mm) == pytest.approx((530, 600), abs=0.1)


@pytest.mark.django_db
def test_the_newest_version_is_laid_and_said_on_the_page_and_in_the_drawing(maker, people):
    garment = make_garment(make_outfit(people.workroom))
    make_version(garment)
    make_version(garment)
    page = maker.get(f"/garments/{garment.pk}/lays/add/").content.decode()
    assert "for the working pattern, version 2 of" in page
    assert "These keep the allowances that were set for them: front." in page
    assert maker.post(f"/garments/{garment.pk}/lays/add/", CLOTH).status_code == 302
    lay = Lay.objects.get()
    do_in_turn([lay.work.pk])
    lay.refresh_from_db()
    asked = lay_request(lay.inputs)
    assert (asked.version, asked.graded) == (2, ())
    assert size(asked.pieces[0].cut_outline) == pytest.approx((350, 620), abs=0.2)
    shown = maker.get(lay.get_absolute_url()).content.decode()
    assert "Pieces of the working pattern, version 2 of" in shown
    assert "With allowances of their own: front." in shown
    assert "working pattern, version 2 of" in lay.results[0]["drawings"]["cm"]


@pytest.mark.django_db
def test_as_drawn_can_still_be_laid(maker, people):
    garment = make_traced_bodice(people.workroom)
    make_version(garment)
    laid = maker.get(f"/garments/{garment.pk}/lays/add/?cut=drawn").context["laid"]
    assert [cut for cut, _ in laid.offered] == ["working", "drawn", "graded"]
    assert "upper sleeve" in [piece.name for piece in laid.pieces]
