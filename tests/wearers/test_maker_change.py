import pytest

from fitting.wearers.models import Maker


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def boxes_of(page) -> dict:
    return {box.html_name: box.value() for box in page.context["form"]}


def test_the_defaults_are_shown_and_nothing_is_stored_by_looking(maker):
    boxes = boxes_of(maker.get("/limits/"))
    assert (boxes["fits_um"], boxes["add_um"], boxes["stale_days"]) == ("1/2 in", "3 in", 90)
    assert boxes["length_fits_um"] == "3/8 in"
    assert boxes["skill_drape"] == ""
    assert not Maker.objects.exists()


def test_a_maker_states_their_own_once(maker, people):
    typed = boxes_of(maker.get("/limits/")) | {"fits_um": "3/8", "hours_a_day": "4", "skill_drape": "working"}
    maker.post("/limits/", typed)
    maker.post("/limits/", typed | {"skill_drape": "learning"})
    row = Maker.objects.get(user=people.maker)
    assert (row.fits_um, row.fits_text, row.hours_a_day) == (9525, "3/8 in", 4)
    assert row.skills.get(name="drape").level == "learning"
    assert row.skills.count() == 1
    maker.post("/limits/", typed | {"skill_drape": ""})
    assert not row.skills.exists()


@pytest.mark.parametrize("larger", ["add_um", "take_off_um", "length_alter_um", "grade_too_far_um"])
def test_what_fits_must_be_less_than_what_can_be_altered(maker, larger):
    typed = boxes_of(maker.get("/limits/")) | {larger: "1/4 in"}
    smaller = {"length_alter_um": "length_fits_um", "grade_too_far_um": "grade_far_um"}.get(larger, "fits_um")
    assert list(maker.post("/limits/", typed).context["form"].errors) == [smaller]
    assert not Maker.objects.exists()


def test_each_person_has_their_own(maker, client, people):
    maker.post("/limits/", boxes_of(maker.get("/limits/")) | {"add_um": "2 in"})
    client.force_login(people.keeper)
    assert boxes_of(client.get("/limits/"))["add_um"] == "3 in"
