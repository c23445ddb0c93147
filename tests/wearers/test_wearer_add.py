"""A wearer is added with little more than a name."""

import pytest

from fitting.wearers.models import Wearer
from tests.makers.rows import make_wearer

TYPED = {"name": "Jasper", "dress": "men's", "is_new_to_lacing": "on", "notes": ""}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_a_wearer_belongs_to_the_workroom_of_whoever_adds_them(maker, people):
    answer = maker.post("/wearers/add/", TYPED)
    wearer = Wearer.objects.get()
    assert answer["Location"] == wearer.get_absolute_url()
    assert (wearer.workroom, wearer.dress) == (people.workroom, "men's")


def test_without_a_name_nobody_is_added_and_nothing_typed_is_lost(maker):
    page = maker.post("/wearers/add/", {**TYPED, "name": "", "notes": "tall"}).content.decode()
    assert "tall" in page
    assert not Wearer.objects.exists()


def test_a_wearer_is_changed(maker, people):
    wearer = make_wearer(people.workroom)
    maker.post(f"/wearers/{wearer.pk}/change/", TYPED)
    wearer.refresh_from_db()
    assert wearer.name == "Jasper"
