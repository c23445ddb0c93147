"""The first page a newcomer meets: what is typed is reckoned, never stored, and never lost."""

import json
import re

import pytest
from django.core.management import call_command

from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.reader.codec import to_json
from fitting.comparing.forms.quick import DEFAULTS, EXAMPLE
from fitting.wearers.models import Maker, Wearer
from tests.makers.cases import QUICK_EXAMPLE


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def reckon(client, start=EXAMPLE, **typed):
    return client.post("/quick/", dict(start) | typed)


def levels_of(page) -> dict:
    return page.context["shown"].answer.levels


def test_the_page_opens_with_its_defaults_and_nothing_to_complain_of(maker):
    page = maker.get("/quick/")
    assert page.status_code == 200
    assert "shown" not in page.context
    assert "aria-invalid" not in page.content.decode()
    assert 'value="1:8"' in page.content.decode()


def test_the_example_is_reckoned_as_by_hand(maker):
    """Waist: 16 × (13/16 − 1/16 + 3/8 + 3/8) = 24, and 1/2 in of gap; bust: 16 × 63/32 = 31 1/2, and 1."""
    page = maker.post("/quick/", {"do": "example"})
    assert levels_of(page)["waist"].garment_mm == pytest.approx(24.5 * 25.4)
    assert levels_of(page)["bust"].garment_mm == pytest.approx(32.5 * 25.4)
    assert page.context["shown"].answer.lengths["nape to waist"].garment_mm == pytest.approx(15 * 25.4)
    assert page.context["chart"].startswith("<svg")
    assert len(page.context["shown"].answer.routes) == 8


def test_the_page_and_the_command_answer_alike(maker, tmp_path, capsys):
    page = reckon(maker)
    file = tmp_path / "case.json"
    file.write_text(json.dumps(QUICK_EXAMPLE))
    call_command("assess", str(file), "--json")
    command = json.loads(capsys.readouterr().out)
    answer = json.loads(json.dumps(to_json(page.context["shown"].answer)))
    for one in (command, answer):
        one.pop("defaults_used")
    assert answer == command


def test_nothing_is_stored(maker):
    reckon(maker)
    assert not ReferenceGarment.objects.exists()
    assert not Wearer.objects.exists()


def test_a_reader_may_try_it_and_is_not_asked_to_keep_it(client, people):
    client.force_login(people.reader)
    page = reckon(client).content.decode()
    assert "Plate against wearer" in page
    assert "Keep this" not in page


def test_the_makers_own_limits_judge_it(maker, people):
    Maker.objects.create(
        user=people.maker, fits_um=50_800, fits_text="2 in", add_um=76_200, take_off_um=76_200
    )
    assert levels_of(reckon(maker))["bust"].verdict == "fits as drawn"


FAULTS = [
    ("scale", "1/8", "A ratio is typed as 1:8"),
    ("scale", "0:8", "has a zero"),
    ("rule", "0 in", "more than nothing"),
    ("piece-0-reading_0", "1-2 in", "is a range"),
    ("piece-0-take_up_1", "2 in", "takes up more than the reading"),
    ("piece-1-cut", "0", "greater than or equal to 1"),
    ("level-0-body", "33 furlongs", "is not a unit"),
    ("level-0-body", "0 in", "more than nothing"),
    ("level-1-ease", "-30 in", "more than the body measures"),
    ("level-1-line", "bust", "is there already"),
    ("level-0-line", "", "Say which this is"),
    ("length-0-reading", "a span", "no number"),
    ("length-0-ease", "-16 in", "more than the body measures"),
]


@pytest.mark.parametrize(("box", "text", "sentence"), FAULTS)
def test_a_fault_stands_beside_its_box_and_every_other_box_keeps_what_was_typed(maker, box, text, sentence):
    page = reckon(maker, **{box: text})
    html = page.content.decode()
    faulty = {found.html_name for found in page.context["sheet"].faulty_boxes}
    assert faulty == {box}
    assert sentence in html
    marked = re.search(rf'<(?:input|select)[^>]*name="{re.escape(box)}"[^>]*>', html)[0]
    assert 'aria-invalid="true"' in marked
    kept = {found.html_name: found.value() for form in page.context["sheet"].every_form for found in form}
    typed = dict(EXAMPLE) | {box: text}
    assert {name: kept[name] for name in typed if name in kept} == {
        name: value for name, value in typed.items() if name in kept
    }
    assert "shown" not in page.context


def sentence_of(page) -> str:
    return page.context["shown"].answer.answer


def test_one_sentence_stands_before_all_figures(maker):
    """34 for 34 at the bust and 24 for 24 at the waist: as near as the plate can be read."""
    html = reckon(maker, **FITTING).content.decode()
    said = "Enlarge as drawn: it fits, as near as this plate can be read."
    places = [html.index(part) for part in (said, "<svg", 'name="scale"', "Routes to the pattern")]
    assert places == sorted(places)


# The example with its body, ease and length changed to what the plate comes to: 32 1/2, 24 1/2 and 15 in.
FITTING = {"level-0-body": "32 1/2 in", "level-0-ease": "", "level-1-body": "24 1/2 in", "level-1-ease": ""}


def test_a_skill_is_asked_on_the_page_and_said_in_one_tap(maker, people):
    """The example is to be altered, so it rests on that skill; “not yet” leads another way."""
    page = reckon(maker)
    assert sentence_of(page).startswith("Enlarge and alter: ")
    html = page.content.decode()
    assert "How well can you enlarge and alter?" in html
    assert re.search(r'<button name="skill-alter" value="none"', html)
    said = reckon(maker, **{"skill-alter": "none"})
    assert not sentence_of(said).startswith("Enlarge and alter: ")
    assert "You said: alter: not yet." in said.content.decode()
    assert '<input type="hidden" name="skill-alter" value="none">' in said.content.decode()
    again = reckon(maker, do="forget skills", **{"skill-alter": "none"})
    assert sentence_of(again) == sentence_of(page)
    assert not Maker.objects.exists()


def test_no_two_regions_of_the_page_bear_one_name(maker):
    names = re.findall(r'role="region" aria-label="([^"]+)"', reckon(maker).content.decode())
    assert len(names) > 3
    assert len(names) == len(set(names))


def test_what_fits_asks_for_no_skill(maker):
    assert "How well can you" not in reckon(maker, **FITTING).content.decode()


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"level-1-line": "hip", "level-1-body": "410 in"}, "410 in is very large for this measure"),
        ({"level-0-body": "26 in", "level-1-body": "34 in"}, "were the two exchanged?"),
    ],
)
def test_figures_that_few_bodies_have_are_asked_about_once(maker, typed, sentence):
    page = reckon(maker, **typed)
    assert "shown" not in page.context
    html = page.content.decode()
    assert sentence in html
    kept = reckon(maker, keep=page.context["sheet"].asked_about, **typed)
    assert "shown" in kept.context
    # Another odd figure is another question.
    other = reckon(maker, keep=page.context["sheet"].asked_about, **typed | {"level-0-body": "500 in"})
    assert "shown" not in other.context


def test_an_answer_to_what_is_no_doubt_any_more_stands_in_nobodys_way(maker):
    assert "shown" in reckon(maker, keep="waist: 410 in is very large").context


def test_faults_of_several_boxes_are_told_together(maker):
    page = reckon(maker, scale="1/8", **{"level-0-body": "x"})
    assert [box.html_name for box in page.context["sheet"].faulty_boxes] == ["scale", "level-0-body"]


def test_a_sheet_without_a_reading_says_so(maker):
    page = reckon(maker, DEFAULTS)
    assert page.context["sheet"].faults == ["Type at least one reading off the plate."]


def test_an_overlap_larger_than_the_cloth_is_told_at_the_top(maker):
    page = reckon(maker, **{"level-0-overlap": "40 in"})
    assert page.context["sheet"].faults == ["Takes up all the cloth there is at bust."]
    assert "Takes up all the cloth there is at bust." in page.content.decode()


@pytest.mark.parametrize(("kind", "before"), [("piece", 3), ("level", 2), ("length", 1)])
def test_one_more_row_keeps_all_that_was_typed_and_complains_of_nothing(maker, kind, before):
    page = reckon(maker, do=f"add {kind}", **{"piece-0-reading_0": "1 1/8 in"})
    sheet = page.context["sheet"]
    assert sheet.counts[kind] == before + 1
    assert sheet.pieces[0]["reading_0"].value() == "1 1/8 in"
    assert "shown" not in page.context
    assert not sheet.is_faulty


def test_rows_come_to_an_end(maker):
    page = reckon(maker, do="add level", levels="8")
    assert page.context["sheet"].counts["level"] == 8
    assert reckon(maker, pieces="9" * 5000).status_code == 200


def test_nineteen_means_nineteen_sixteenths_once_it_is_said(maker):
    page = reckon(maker, sixteenths="on", **{"piece-1-reading_1": "6", "level-1-body": "25"})
    assert levels_of(page)["waist"].garment_mm == pytest.approx(24.5 * 25.4)
    assert levels_of(page)["waist"].body_mm == pytest.approx(25 * 25.4)


def test_bare_numbers_are_in_the_readers_unit(maker, people):
    people.maker.system = "cm"
    people.maker.save()
    page = reckon(maker, **{"level-1-body": "63,5"})
    assert levels_of(page)["waist"].body_mm == pytest.approx(635)
    assert "63.5 cm" in page.content.decode()


def test_a_scale_in_words_and_an_allowance_that_is_drawn(maker):
    typed = {"scale": "1 in = 8 in", "allowance": "included", "allowance_size": "1/4 in"}
    page = reckon(maker, **typed)
    # Three pieces cut twice, two edges each: 12 × 1/4 in less.
    assert levels_of(page)["waist"].garment_mm == pytest.approx((24.5 - 3) * 25.4)
    faulty = reckon(maker, allowance="included").context["sheet"].faulty_boxes
    assert [box.html_name for box in faulty] == ["allowance_size"]


def test_the_plain_enlargement_of_another_level_is_one_button_away(maker):
    """Example: the waist is 24 of drawn cloth and 1/2 of gap for 25, so 24.5 / 24."""
    page = reckon(maker, made_to_fit="waist")
    assert page.context["shown"].enlargement.factor == pytest.approx(24.5 / 24)
    html = page.content.decode()
    assert re.search(r'<button name="made_to_fit" value="bust"', html)
    assert not re.search(r'<button name="made_to_fit" value="waist"', html)
