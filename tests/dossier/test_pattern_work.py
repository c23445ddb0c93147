"""Kept pattern work and lays in print: the very figures that were kept, in the unit of the dossier."""

from fitting.dossier.loading.values import dossier_values
from fitting.dossier.showing.document import html_of
from fitting.outfits.models.outfit import Outfit
from tests.makers.kept_work import make_work_note
from tests.makers.rows import NOON, make_garment, make_outfit, make_wearer
from tests.makers.working_pattern import make_version


def test_the_demo_prints_its_alteration_plan_its_seams_its_pleats_and_its_lay(egg_seller):
    words = " ".join(egg_seller.pages)
    assert "4 × 7/16 in (side seam) = 1 3/4 in" in words
    assert "32 knife pleats" in words
    assert "Cloth and lay" in words
    assert egg_seller.html.count('class="lay"') == 4  # two cloths, two widths of each
    assert "5 · sleeve head, under" in words
    # Three pieces altered, four with their seams numbered, and the seams straightened.
    assert egg_seller.html.count('class="work-drawing"') == 8


def test_the_newest_sheet_of_a_kind_is_printed_in_the_unit_of_the_dossier(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    garment = make_garment(outfit)
    for mm in (254.0, 508.0):
        sums = [{"label": "width", "parts": ["about ", mm]}]
        results = {"figures": {}, "lines": sums, "grids": [], "flags": [], "drawings": []}
        make_work_note(garment, results=results)
    opened = Outfit.objects.for_detail_page().get(pk=outfit.pk)
    values = dossier_values(opened, sections=["work"], paper="A4", system="cm", by=None, at=NOON)
    html = html_of(values)
    assert "about 50.8 cm" in html
    assert "25.4 cm" not in html


def test_the_newest_version_is_drawn_and_what_led_to_it_is_told_in_order(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    garment = make_garment(outfit)
    make_version(garment, by=people.maker)
    make_version(garment, by=people.maker)
    opened = Outfit.objects.for_detail_page().get(pk=outfit.pk)
    values = dossier_values(opened, sections=["work"], paper="A4", system="cm", by=None, at=NOON)
    html = html_of(values)
    assert "working pattern, version 2 of" in html
    assert html.index("Begun from a plate") < html.index("1/2 in added at the hem.")
    (work,) = values.work
    assert [piece.piece.name for piece in work.pattern.drawn.figure.drawing.pieces] == ["front", "back"]
    # 620 mm high with allowances, twice 10 beside, the bar beneath: 640 ÷ 0.91 = 703, over 178 mm of paper.
    assert work.pattern.drawn.scale == 4
