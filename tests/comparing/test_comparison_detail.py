"""The page of a comparison says what the command and the dossier say: one case is sent through all three."""

import json

import pytest
from django.core.management import call_command

from catalogue.workroom.reader.codec import to_json
from fitting.comparing.actions import compare_garment
from fitting.dossier.calculation import USUAL
from fitting.dossier.loading.values import dossier_values
from fitting.outfits.models.garment import Ease
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_piece,
    make_wearer,
    um,
)


@pytest.fixture
def bodice(people):
    """Levels fitted, loose and gathered, a length, and layers to build up over: something of everything."""
    plate = make_bodice_plate(people.workroom)
    make_piece(plate, "skirt", {"hip": "7 in", "nape to waist": "1 3/4 in"})
    wearer = make_wearer(people.workroom)
    takes = {"waist": "22 1/4 in", "bust": "33 in", "hip": "37.5 in", "nape to waist": "15 in"}
    make_measures(wearer, takes, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    make_garment(outfit, name="shift", thickness_um=300, thickness_text="0.3 mm")
    garment = make_garment(outfit, plate=plate)
    for line, ease, fit in (("bust", "1/2 in", "loose"), ("hip", "0 in", "gathered")):
        Ease.objects.create(garment=garment, line=line, ease_um=um(ease), ease_text=ease, fit=fit)
    return garment


@pytest.fixture
def comparison(bodice, people):
    return compare_garment(bodice, by=people.maker, at=NOON)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_page_dossier_command_and_row_hold_the_same_unrounded_numbers(
    comparison, maker, people, tmp_path, capsys
):
    page = to_json(maker.get(comparison.get_absolute_url()).context["shown"].answer)
    given = {"sections": USUAL, "paper": "A4", "system": "in", "by": people.maker, "at": NOON}
    sheet = to_json(dossier_values(comparison.garment.outfit, **given).sheets[-1].comparison.answer)
    file = tmp_path / "case.json"
    file.write_text(json.dumps(comparison.inputs["case"]))
    call_command("assess", str(file), "--json")
    command = json.loads(capsys.readouterr().out)
    row = comparison.results
    for answer in (command, page, sheet, row):
        answer.pop("defaults_used")
    assert json.loads(json.dumps(page)) == command
    assert json.loads(json.dumps(sheet)) == command
    assert json.loads(json.dumps(row)) == command
    assert command["levels"]["waist"]["difference_mm"] != round(
        command["levels"]["waist"]["difference_mm"], 3
    )


def test_a_reader_in_centimetres_is_shown_centimetres_and_the_same_figures(comparison, maker, people):
    people.maker.system = "cm"
    people.maker.save()
    response = maker.get(comparison.get_absolute_url())
    answer = response.context["shown"].answer
    assert answer.levels["waist"].u_mm == comparison.results["levels"]["waist"]["u_mm"]
    assert answer.levels["waist"].sum == "front 2 × 8 × 1.91 cm + back 2 × 8 × 1.59 cm ≈ 55.9 cm"
    assert "56.7 cm" in response.content.decode()


def test_the_order_of_stored_keys_changes_nothing(comparison, maker):
    """PostgreSQL keeps the keys of a JSON column in an order of its own."""
    before = maker.get(comparison.get_absolute_url()).context["shown"].answer
    girths = comparison.inputs["case"]["measures"]["girths"]
    comparison.inputs["case"]["measures"]["girths"] = dict(sorted(girths.items(), reverse=True))
    comparison.save()
    after = maker.get(comparison.get_absolute_url()).context["shown"].answer
    assert json.dumps(to_json(after)) == json.dumps(to_json(before))


def test_how_a_measure_was_built_up_is_written_out(comparison, maker):
    lines = {line.line: line for line in maker.get(comparison.get_absolute_url()).context["shown"].lines}
    assert lines["waist"].measure == "22 1/4 in + shift 1/16 in ≈ 22 5/16 in ± 3/8 in"
    assert lines["nape to waist"].measure == ""


def test_an_unsettled_line_says_what_it_is_in_doubt_of_and_what_would_help(comparison, maker):
    lines = {line.line: line for line in maker.get(comparison.get_absolute_url()).context["shown"].lines}
    assert lines["waist"].answer.verdict == "within altering"
    assert lines["waist"].doubt.startswith(
        "The largest part of the doubt, 32 %, comes from the reading of front at waist."
    )
    assert "Read to 1/32 in: ±" in lines["waist"].doubt
    assert "Measured twice: ±" in lines["waist"].doubt


def test_a_gathered_level_shows_its_fullness_and_a_loose_one_is_never_too_large(comparison, maker):
    page = maker.get(comparison.get_absolute_url())
    lines = {line.line: line for line in page.context["shown"].lines}
    assert lines["hip"].likely == "gathered 2.98 to 1"
    assert "hip" not in {row.label for row in page.context["shown"].chart}
    assert dict(lines["bust"].chances)["too large"] == "0 %"


@pytest.fixture
def short_bodice(bodice):
    """Nothing but the waist: 22 in for 24 in and the shift beneath."""
    takes = {"waist": "24 in"}
    make_measures(bodice.outfit.wearer, takes, state="undressed", taken_on=NOON.date())
    return bodice


@pytest.mark.parametrize("place", ["comparison", "garment"])
def test_one_sentence_stands_before_chart_and_words(short_bodice, maker, people, place):
    comparison = compare_garment(short_bodice, by=people.maker, at=NOON)
    address = (comparison if place == "comparison" else short_bodice).get_absolute_url()
    html = maker.get(address).content.decode()
    assert comparison.results["answer"].startswith("Enlarge and alter: it wants 2 1/16 in more at the waist")
    places = [html.index(part) for part in (comparison.results["answer"], "<svg", "Routes to the pattern")]
    assert places == sorted(places)


@pytest.mark.parametrize("place", ["comparison", "garment"])
def test_a_skill_is_said_in_one_tap_and_compared_again(short_bodice, maker, people, place):
    comparison = compare_garment(short_bodice, by=people.maker, at=NOON)
    address = (comparison if place == "comparison" else short_bodice).get_absolute_url()
    assert "How well can you enlarge and alter?" in maker.get(address).content.decode()
    typed = {"skill": "alter", "level": "working", "page": place}
    response = maker.post(f"/garments/{short_bodice.pk}/skill/", typed, follow=True)
    newest = short_bodice.comparisons.first()
    assert newest != comparison
    assert (
        response.redirect_chain[-1][0]
        == (newest if place == "comparison" else short_bodice).get_absolute_url()
    )
    assert people.maker.maker.skills.get().level == "working"
    assert "How well can you" not in response.content.decode()
    assert newest.results["answer"].endswith("Next: plan the alteration.")


def test_nobody_is_asked_for_the_skills_of_another(short_bodice, client, people):
    compare_garment(short_bodice, by=people.maker, at=NOON)
    client.force_login(people.keeper)
    assert "How well can you" not in client.get(short_bodice.get_absolute_url()).content.decode()


def test_what_is_no_answer_changes_nothing(short_bodice, maker, people):
    page = maker.post(f"/garments/{short_bodice.pk}/skill/", {"skill": "sew", "level": "well"}, follow=True)
    assert "That is no answer" in page.content.decode()
    assert not short_bodice.comparisons.exists()


def test_an_allowance_not_known_shows_both_results(bodice, maker, people):
    bodice.plate.allowance = "not known"
    bodice.plate.save()
    page = maker.get(compare_garment(bodice, by=people.maker, at=NOON).get_absolute_url())
    found = {line.line: line for line in page.context["shown"].lines}["waist"]
    assert found.if_included.garment_mm < found.answer.garment_mm
    assert "If 1/2 in is included" in page.content.decode()


def test_an_older_comparison_points_to_the_newest(comparison, maker, people):
    newer = compare_garment(comparison.garment, by=people.maker, at=NOON.replace(hour=13))
    page = maker.get(comparison.get_absolute_url()).content.decode()
    assert "out of date" in page
    assert f'href="{newer.get_absolute_url()}"' in page
    assert "out of date" not in maker.get(newer.get_absolute_url()).content.decode()


def test_a_comparison_made_by_older_rules_still_shows_the_answer_kept_with_it(comparison, maker):
    """The first rules wrote no sentence, and called a length longer or shorter."""
    comparison.rule_version = "1"
    comparison.results["levels"]["waist"]["garment_mm"] = 1270.0
    nape = comparison.results["lengths"]["nape to waist"]
    nape["chances"] = dict(
        zip(("too small", "longer", "fits", "shorter", "too large"), nape["chances"].values(), strict=True)
    )
    nape["verdict"] = "longer"
    del comparison.results["answer"]
    comparison.save()
    page = maker.get(comparison.get_absolute_url())
    lines = {line.line: line for line in page.context["shown"].lines}
    assert [word for word, _ in lines["nape to waist"].chances][1] == "longer"
    assert lines["waist"].likely.startswith("likeliest ")
    assert "The rules that it was made by have changed since." in page.content.decode()
    assert "Recommended: " in page.content.decode()
    assert page.context["shown"].answer.levels["waist"].garment_mm == 1270.0
    assert "50 in" in page.content.decode()


def test_stale_measures_say_how_much_it_could_matter(bodice, maker, people):
    later = NOON.replace(year=2027)
    page = maker.get(compare_garment(bodice, by=people.maker, at=later).get_absolute_url())
    found = {line.line: line for line in page.context["shown"].lines}["waist"]
    assert found.matters.startswith("It changes where the body has ")


def test_the_plain_enlargement_is_that_of_the_answer_until_another_level_is_asked_for(comparison, maker):
    answer = comparison.results["plain_enlargement"]
    plain = maker.get(comparison.get_absolute_url()).context["shown"].enlargement
    assert (plain.made_to_fit, plain.factor) == (answer["made_to_fit"], answer["factor"])
    other = next(level for level, _ in plain.choices if level != plain.made_to_fit)
    page = maker.get(comparison.get_absolute_url(), {"made_to_fit": other})
    asked = {line.label: line for line in page.context["shown"].enlargement.lines}
    assert asked[other].difference_mm == pytest.approx(0, abs=1e-9)
    assert to_json(page.context["shown"].answer.plain_enlargement) == answer
    for nonsense in ("hip", "nape to waist", "elbows", "\0"):
        found = maker.get(comparison.get_absolute_url(), {"made_to_fit": nonsense}).context["shown"]
        assert found.enlargement == plain


def test_a_loose_level_that_has_enough_is_explained_and_fitted_ones_are_offered(bodice, maker, people):
    """The bust as drawn is loose and 5 in more than wanted: only the waist is a level to fit."""
    takes = {"waist": "22 in", "bust": "26 in"}
    make_measures(bodice.outfit.wearer, takes, state="undressed", taken_on=NOON.date())
    comparison = compare_garment(bodice, by=people.maker, at=NOON)
    page = maker.get(comparison.get_absolute_url())
    plain = page.context["shown"].enlargement
    assert (plain.made_to_fit, plain.spare) == ("bust", "bust or chest")
    assert plain.choices == (("waist", "waist"),)
    assert "more is no fault there" in page.content.decode()
    assert 'href="?made_to_fit=waist#enlargement"' in page.content.decode()
    asked = maker.get(bodice.get_absolute_url(), {"made_to_fit": "waist"}).context["shown"].enlargement
    assert (asked.made_to_fit, asked.spare) == ("waist", "")


def test_what_older_rules_made_offers_no_choice(comparison, maker):
    comparison.rule_version = "0"
    comparison.save()
    page = maker.get(comparison.get_absolute_url(), {"made_to_fit": "waist"})
    plain = page.context["shown"].enlargement
    assert plain.choices == ()
    assert plain.factor == comparison.results["plain_enlargement"]["factor"]
