"""A set of measures typed on one page: several takes, sides apart, doubts asked about once."""

import datetime

import pytest

from fitting.wearers.models import Measures
from tests.makers.rows import make_garment, make_measures, make_outfit, make_wearer

HEAD = {"taken_on": "2026-11-20", "state": "over stays"}


@pytest.fixture
def wearer(people):
    return make_wearer(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def typed_in(maker, wearer, **boxes):
    return maker.post(f"/wearers/{wearer.pk}/measures/add/", {**HEAD, **boxes})


def kept() -> list[tuple[str, str, str]]:
    return list(Measures.objects.get().takes.values_list("line", "side", "value_text"))


def test_takes_are_kept_as_typed_with_the_unit_they_were_meant_in(maker, wearer):
    answer = typed_in(maker, wearer, take_waist_1="25 1/4", take_waist_2="64,5 cm", take_bust_3="33")
    assert answer["Location"] == Measures.objects.get().get_absolute_url()
    assert kept() == [("bust", "", "33 in"), ("waist", "", "25 1/4 in"), ("waist", "", "64,5 cm")]


def test_sides_and_arcs_are_kept_apart(maker, wearer):
    typed_in(
        maker,
        wearer,
        take_upper_arm_left_1="11",
        take_upper_arm_right_1="11 1/2",
        take_bust_front_1="17 1/2",
        take_bust_back_1="16",
    )
    assert kept() == [
        ("bust", "front", "17 1/2 in"),
        ("bust", "back", "16 in"),
        ("upper arm", "left", "11 in"),
        ("upper arm", "right", "11 1/2 in"),
    ]


def test_a_fault_loses_nothing_that_was_typed(maker, wearer):
    answer = typed_in(maker, wearer, take_waist_1="25-26 in", take_bust_1="33 1/8", measured_by="Edda")
    page = answer.content.decode()
    for typed in ("25-26 in", "33 1/8", "Edda"):
        assert f'value="{typed}"' in page
    assert "is a range" in page
    assert not Measures.objects.exists()


def test_a_folded_part_with_a_fault_is_open(maker, wearer):
    page = typed_in(maker, wearer, take_waist_1="25", take_shoulder_left_1="?").content.decode()
    assert '<details class="more" open>' in page


def test_an_unlikely_figure_is_asked_about_and_kept_when_it_is_so(maker, wearer):
    page = typed_in(maker, wearer, take_waist_1="25 cm").content.decode()
    assert "were inches typed as centimetres?" in page
    assert 'name="keep"' in page
    assert not Measures.objects.exists()
    asked = typed_in(maker, wearer, take_waist_1="10 in").content.decode()
    assert "10 in is very small for this measure: measure again" in asked
    typed_in(maker, wearer, take_waist_1="25 cm", keep="yes")
    assert kept() == [("waist", "", "25 cm")]


def test_takes_far_apart_are_asked_about(maker, wearer):
    answer = typed_in(maker, wearer, take_waist_1="25", take_waist_2="35")
    assert "far apart for takes" in answer.context["doubts"][0].sentence


def test_a_set_without_a_measure_is_none(maker, wearer):
    assert "Type at least one measure." in typed_in(maker, wearer).content.decode()
    assert not Measures.objects.exists()


def test_one_arc_makes_no_girth(maker, wearer):
    answer = typed_in(maker, wearer, take_bust_front_1="17")
    assert "take_bust_back_1" in answer.context["takes"].errors
    assert not Measures.objects.exists()


def test_layers_must_be_named(maker, wearer):
    answer = typed_in(maker, wearer, state="over layers", take_waist_1="27")
    assert "state_note" in answer.context["form"].errors


def test_a_day_still_to_come_is_refused(maker, wearer):
    tomorrow = datetime.date.today() + datetime.timedelta(days=1)
    answer = typed_in(maker, wearer, taken_on=tomorrow.isoformat(), take_waist_1="27")
    assert "taken_on" in answer.context["form"].errors


def test_only_garments_of_this_wearers_outfits_can_be_worn_beneath(maker, wearer, people):
    own = make_garment(make_outfit(people.workroom, wearer=wearer), name="stays")
    other = make_garment(make_outfit(people.workroom), name="gown")
    answer = typed_in(maker, wearer, take_waist_1="25", worn=[own.pk, other.pk])
    assert "worn" in answer.context["form"].errors
    typed_in(maker, wearer, take_waist_1="25", worn=[own.pk])
    assert list(Measures.objects.get().worn.all()) == [own]


def test_lines_follow_the_wearers_dress(maker, people):
    man = make_wearer(people.workroom, name="Jasper", dress="men's")
    rows = maker.get(f"/wearers/{man.pk}/measures/add/").context["takes"].rows_asked()
    keys = {row.line.key for row in rows}
    assert "inside leg" in keys
    assert not keys & {"under bust", "skirt front", "hem"}


def test_a_new_set_asks_first_for_the_lines_of_the_last_and_copies_no_figure(maker, wearer):
    last = make_measures(wearer, {"waist": "25 in", "hip": "38 in"}, measured_by="Edda")
    page = maker.get(f"/wearers/{wearer.pk}/measures/add/?from={last.pk}")
    takes = page.context["takes"]
    assert [row.line.key for row in takes.rows_asked()] == ["waist", "hip"]
    assert len(takes.rows_besides()) > 20
    assert "25 in" not in page.content.decode()
    assert page.context["form"].initial["measured_by"] == "Edda"


@pytest.mark.parametrize("asked", ["x", "999999", ""])
def test_an_unknown_last_set_is_passed_over(maker, wearer, asked):
    page = maker.get(f"/wearers/{wearer.pk}/measures/add/?from={asked}")
    assert page.context["takes"].rows_besides() == []


def test_another_persons_set_is_no_model(maker, wearer, people):
    other = make_measures(make_wearer(people.workroom, name="Other"))
    page = maker.get(f"/wearers/{wearer.pk}/measures/add/?from={other.pk}")
    assert page.context["takes"].rows_besides() == []
