"""A reading that stands by a tracing is derived: it goes where calibration, outline, level and scale go."""

import json

import pytest
from django.urls import reverse

from catalogue.plates.models.piece import Reading
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.scan import calibrate
from catalogue.tracing.calculation.calibration import by_bar
from catalogue.tracing.models import PlateScan, TracedReading
from fitting.comparing.actions import compare_garment
from fitting.comparing.showing.standing import garment_as_it_stands
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_scan,
    make_wearer,
)

# 8 in by 10 in at full size, so 1 in across on the page of 1:8.
CORNERS = [(100, 100), (303.2, 100), (303.2, 354), (100, 354)]
WAIST = {"line": "waist", "points": [[50, 300], [400, 300]]}


@pytest.fixture
def plate(people):
    plate = make_bodice_plate(people.workroom)
    make_scan(plate)
    return plate


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def keep(maker, plate, levels=(WAIST,), as_of=None):
    nodes = [{"x": x, "y": y, "corner": True, "curved": False, "edge": ""} for x, y in CORNERS]
    piece = {"piece": plate.pieces.get(name="front").pk, "nodes": nodes, "marks": []}
    body = json.dumps({"as_of": as_of, "pieces": [piece], "levels": list(levels)})
    return maker.post(reverse("trace-keep", args=[plate.pk]), body, content_type="application/json")


def use(maker, plate):
    rows = TracedReading.objects.filter(piece__plate=plate)
    maker.post(reverse("traced-readings", args=[plate.pk]), {"use": [row.pk for row in rows]})


def recalibrate(plate, people, times):
    """So many times as large as before, where a pixel was half a millimetre."""
    bar = by_bar(0j, 200 + 0j, real_mm=100 * times, size=(1200, 900), is_photograph=False)
    calibrate(scan=plate.scan, way="bar", found=bar, given={}, by=people.maker, at=NOON)


def waist(plate) -> Reading:
    return Reading.objects.get(piece__plate=plate, piece__name="front", line="waist")


def page(maker, plate) -> str:
    return maker.get(reverse("plate-detail", args=[plate.pk])).content.decode()


def typed_over(maker, plate, text):
    """The sheet of readings as it is shown, with another waist of the front."""
    sheet = maker.get(reverse("plate-detail", args=[plate.pk])).context["form"]
    boxes = {name: sheet[name].value() for name in sheet.fields}
    boxes = {name: value for name, value in boxes.items() if value not in (None, False)}
    boxes[f"reading-{plate.pieces.get(name='front').pk}-waist"] = text
    lines = {"line": [line.key for line in sheet.lines]}
    return maker.post(reverse("plate-readings", args=[plate.pk]), boxes | lines)


def test_a_new_calibration_moves_table_pieces_and_comparison_at_once(maker, people, plate):
    keep(maker, plate)
    use(maker, plate)
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    garment = make_garment(outfit, plate=plate)
    compare_garment(garment, by=people.maker, at=NOON)
    recalibrate(plate, people, 1.25)
    # 8 in × 1.25 = 10 in in the pieces; 2 × 10 in of the front and 2 × 8 × 5/8 in of the back are 30 in.
    shown = maker.get(reverse("plate-detail", args=[plate.pk]))
    assert waist(plate).reading_um == 31_750
    [found] = (one for one in shown.context["findings"]["outer"].girths if one.line == "waist")
    assert found.full_size.mm == pytest.approx(30 * 25.4)
    assert '<td class="figure">10 in</td>' in shown.content.decode()
    outfit.refresh_from_db()
    assert garment_as_it_stands(garment, by=people.maker, at=NOON).is_out_of_date


def test_a_new_scale_of_the_page_leaves_full_size_where_it_was_traced(maker, plate):
    keep(maker, plate)
    use(maker, plate)
    form = maker.get(reverse("plate-change", args=[plate.pk])).context["form"]
    boxes = {name: form[name].value() for name in form.fields}
    boxes = {name: value for name, value in boxes.items() if value not in (None, False)} | {"ratio": "1:4"}
    assert maker.post(reverse("plate-change", args=[plate.pk]), boxes).status_code == 302
    assert Plate.objects.get().ratio == "1:4"
    assert waist(plate).reading_um == 50_800  # 8 in at full size, on a page of 1:4


def test_a_page_loaded_before_a_calibration_keeps_nothing_by_the_one_after(maker, people, plate):
    as_of = keep(maker, plate).json()["as_of"]
    recalibrate(plate, people, 2)
    assert keep(maker, plate, as_of=as_of).status_code == 409


def test_an_older_sheet_of_readings_does_not_bring_the_old_ones_back(maker, people, plate):
    keep(maker, plate)
    use(maker, plate)
    page_before = maker.get(reverse("plate-detail", args=[plate.pk])).context["form"]
    boxes = {name: page_before[name].value() for name in page_before.fields}
    boxes = {name: value for name, value in boxes.items() if value not in (None, False)}
    recalibrate(plate, people, 1.25)
    lines = {"line": [line.key for line in page_before.lines]}
    answer = maker.post(reverse("plate-readings", args=[plate.pk]), boxes | lines)
    assert "changed on another screen" in answer.content.decode()
    assert waist(plate).reading_um == 31_750


def test_what_is_typed_over_a_traced_reading_stays_and_says_which_tracing_disagrees(maker, people, plate):
    keep(maker, plate)
    use(maker, plate)
    assert typed_over(maker, plate, "7/8 in").status_code == 302
    recalibrate(plate, people, 1.25)
    assert (waist(plate).reading_text, waist(plate).doubt_um) == ("7/8 in", None)
    # 1 1/4 in traced and 7/8 in typed: 3/8 in, which at 1:8 are 3 in.
    said = page(maker, plate)
    assert "The waist of the front is typed as 7/8 in; its tracing, by calibration 2, gives 1 1/4 in" in said
    assert "3 in more at full size" in said


def test_a_reading_by_hand_that_agrees_is_not_spoken_of(maker, plate):
    keep(maker, plate)
    Reading.objects.filter(pk=waist(plate).pk).update(reading_um=25_400, reading_text="1 in")
    assert "its tracing" not in page(maker, plate)


def test_a_printed_figure_that_a_tracing_misses_is_marked(maker, plate):
    # Full-size figures; 8 in traced. u² = (0.004 × 8 in)² + (√2 px of 1/2 mm)² + 2 × (1/16 in)² / …: by hand
    # 0.813, 0.707, 0.648 (1/16 in ÷ √6) and 1.588 mm (the drawing): together 2.02 mm. 14 mm are 6.9 of them.
    Plate.objects.update(scale_kind=Plate.ScaleKind.FIGURES)
    Reading.objects.filter(line="waist").update(reading_um=203_200 - 14_000, reading_text="189.2 mm")
    keep(maker, plate)
    marked = maker.get(reverse("traced-readings", args=[plate.pk])).content.decode()
    assert "<strong>7 times the doubt</strong>" in marked
    assert "The waist of the front is printed as 7 7/16 in" in marked
    assert "is printed as" in page(maker, plate)


def test_a_level_taken_away_leaves_the_reading_and_says_so(maker, plate):
    keep(maker, plate)
    use(maker, plate)
    keep(maker, plate, levels=())
    assert waist(plate).reading_um == 25_400
    assert "nothing traced gives it any more" in page(maker, plate)
    keep(maker, plate)
    assert "nothing traced gives it any more" not in page(maker, plate)


def test_of_a_scan_that_is_deleted_the_readings_stay(maker, plate):
    keep(maker, plate)
    use(maker, plate)
    maker.post(reverse("scan-delete", args=[plate.pk]))
    assert not PlateScan.objects.exists()
    assert waist(plate).reading_um == 25_400
    maker.post(reverse("traced-readings", args=[plate.pk]), {})
    assert waist(plate).reading_text == "3/4 in"  # the one by hand comes back even now


# Along the lower edge of the front, a third of a pixel below it at its right: most of the piece is missed.
ALONG_THE_EDGE = {"line": "waist", "points": [[50, 354.6], [400, 352]]}


@pytest.mark.parametrize("back", ["readings", "outline", "trace"])
def test_a_level_along_an_edge_is_named_and_one_press_moves_it(maker, plate, back):
    front = plate.pieces.get(name="front")
    said = keep(maker, plate, levels=[ALONG_THE_EDGE]).json()["pieces"][0]["cut_short"]
    assert "The waist line runs along an edge of the front" in said[0]["sentence"]
    pages = {
        "readings": reverse("traced-readings", args=[plate.pk]),
        "outline": reverse("outline-change", args=[front.pk]),
        "trace": f"{reverse('plate-trace', args=[plate.pk])}?piece={front.pk}",
    }
    assert said[0]["key"] in maker.get(pages[back]).content.decode()
    answer = maker.post(
        reverse("level-move", args=[plate.pk]), {"move": said[0]["key"], "back": back}, follow=True
    )
    assert answer.redirect_chain[-1][0] == pages[back]
    assert "The level is moved" in answer.content.decode()
    assert "runs along" not in answer.content.decode()
    # 8 in at full size, where the slanting line meets both sides: √(8² + (8 × 2.6/350)²) in.
    assert TracedReading.objects.get().reading_um == pytest.approx(25_400, rel=1e-4)


def test_a_reading_that_stands_by_a_level_cut_short_says_so_on_the_plate(maker, plate):
    keep(maker, plate, levels=[ALONG_THE_EDGE])
    assert "runs along" not in page(maker, plate)
    use(maker, plate)
    assert "runs along an edge of the front" in page(maker, plate)


def test_a_level_that_is_no_more_is_not_moved(maker, plate):
    key = keep(maker, plate, levels=[ALONG_THE_EDGE]).json()["pieces"][0]["cut_short"][0]["key"]
    keep(maker, plate)
    answer = maker.post(reverse("level-move", args=[plate.pk]), {"move": key}, follow=True)
    assert "Not moved" in answer.content.decode()
