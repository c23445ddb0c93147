"""A session works in the workroom that the person chose: whatever others do, what is typed is saved there."""

import pytest

from catalogue.references.models.garment import Dress
from catalogue.workroom.models import Member, Workroom
from fitting.wearers.models import Wearer
from tests.makers.rows import make_invitation, make_reference


@pytest.fixture
def second(people) -> Workroom:
    """Where the maker is a member too, first in order of names."""
    second = Workroom.objects.create(name="A second house")
    Member.objects.create(workroom=second, user=people.maker, role=Member.Role.MAKER)
    return second


def add_wearer(client) -> Workroom | None:
    """Type a wearer into the page; return the workroom that holds it afterwards."""
    client.post("/wearers/add/", {"name": "Ottilie", "dress": Dress.WOMENS})
    wearer = Wearer.objects.first()
    return wearer.workroom if wearer else None


@pytest.fixture
def maker(client, people):
    client.post("/sign-in/", {"username": "maker", "password": "a long enough word"})
    return client


def test_whoever_has_one_place_is_not_asked(maker, people):
    assert maker.get("/workroom/").context["workroom"] == people.workroom


def test_whoever_has_two_and_has_not_said_is_asked_and_taken_back_to_the_page(people, second, maker):
    answer = maker.get("/wearers/?page=1", follow=True)
    assert answer.redirect_chain == [("/workroom/choose/?next=%2Fwearers%2F%3Fpage%3D1", 302)]
    assert "A second house" in answer.text
    assert "Attic table" in answer.text
    assert add_wearer(maker) is None
    answer = maker.post("/workroom/choose/", {"workroom": second.pk, "next": "/wearers/?page=1"})
    assert answer["Location"] == "/wearers/?page=1"
    assert add_wearer(maker) == second


def test_an_open_session_stays_where_it_is_when_a_second_place_comes(maker, people):
    assert maker.get("/workroom/").context["workroom"] == people.workroom
    other = Workroom.objects.create(name="A house before all others")
    Member.objects.create(workroom=other, user=people.maker, role=Member.Role.KEEPER)
    assert add_wearer(maker) == people.workroom


def test_an_invitation_moves_nobody(maker, people):
    elsewhere = people.stranger.memberships.get().workroom
    _, path = make_invitation(elsewhere, by=people.stranger, name="maker")
    assert add_wearer(maker) == people.workroom
    maker.get(path)
    assert maker.get("/workroom/").context["workroom"] == people.workroom
    maker.post("/invitation/", {"accept": ""})
    assert maker.get("/workroom/").context["workroom"] == people.workroom


def test_whoever_loses_their_place_is_asked_even_if_one_is_left(maker, people, second):
    maker.post("/workroom/choose/", {"workroom": people.workroom.pk})
    people.workroom.members.get(user=people.maker).delete()
    assert add_wearer(maker) is None
    assert "no longer a member" in maker.get("/workroom/choose/").text
    maker.post("/workroom/choose/", {"workroom": second.pk})
    assert add_wearer(maker) == second


def test_no_row_of_another_workroom_is_open_meanwhile(maker, people, second):
    theirs = make_reference(second)
    maker.post("/workroom/choose/", {"workroom": people.workroom.pk})
    assert maker.get(theirs.get_absolute_url()).status_code == 404
    maker.post("/workroom/choose/", {"workroom": second.pk})
    assert maker.get(theirs.get_absolute_url()).status_code == 200


@pytest.mark.parametrize("chosen", ["999999", "x", ""])
def test_nobody_chooses_a_workroom_they_are_not_in(maker, chosen):
    assert maker.post("/workroom/choose/", {"workroom": chosen}).status_code == 404


def test_nobody_is_led_to_another_site(maker, people):
    sent = {"workroom": people.workroom.pk, "next": "https://elsewhere.example/"}
    assert maker.post("/workroom/choose/", sent)["Location"] == "/"
