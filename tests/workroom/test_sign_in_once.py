"""One-time addresses: a page with one button, spent by its use, good for one workroom; the person is told."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from catalogue.workroom.models import Member, User, Workroom
from catalogue.workroom.models.one_time import SignInAddress
from catalogue.workroom.sign_in import LASTS, make_sign_in_address
from tests.makers.rows import one_time_path


def sign_in(user: User) -> Client:
    client = Client()
    assert (
        client.post("/sign-in/", {"username": user.username, "password": "a long enough word"}).status_code
        == 302
    )
    return client


@pytest.fixture
def made(people) -> str:
    """Where the maker is let in, by their keeper."""
    return one_time_path(people.maker, by=people.keeper)


def test_looking_at_the_address_does_not_spend_it_and_the_button_does(client, people, made):
    assert client.get(made).status_code == 200
    assert client.get(made).status_code == 200
    assert client.post(made).status_code == 302
    client.logout()
    assert client.get(made).status_code == 410
    assert client.post(made).status_code == 410


def test_a_keeper_makes_one_on_the_page_of_the_members(client, people):
    client.force_login(people.keeper)
    member = people.workroom.members.get(user=people.reader)
    address = client.post(f"/members/{member.pk}/sign-in-address/").context["address"]
    other = Client()
    assert other.post(address.removeprefix("http://testserver"))["Location"] == "/"
    assert other.get("/workroom/").context["user"] == people.reader


def test_a_secret_that_nobody_made_opens_nothing(client, people, made):
    assert client.post("/sign-in/once/x/").status_code == 410


def test_it_ends_by_itself(client, people, made):
    SignInAddress.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    assert client.get(made).status_code == 410
    assert timedelta(days=3) == LASTS


def test_a_new_one_ends_the_one_before(client, people, made):
    one_time_path(people.maker, by=people.keeper)
    assert client.post(made).status_code == 410


def test_it_opens_the_workroom_that_it_was_made_for_and_no_other(client, people):
    elsewhere = people.stranger.memberships.get().workroom
    here = Member.objects.create(workroom=people.workroom, user=people.stranger, role=Member.Role.READER)
    client.post(make_sign_in_address(member=here, by=people.keeper, at=timezone.now()))
    assert client.get("/workroom/").context["workroom"] == people.workroom
    assert "Other house" not in client.get("/workroom/choose/").text
    assert client.post("/workroom/choose/", {"workroom": elsewhere.pk}).status_code == 404
    assert client.get("/workroom/").context["workroom"] == people.workroom


def test_a_page_asked_for_elsewhere_stays_shut(client, people):
    """Also the password: one that is set by this address would open the other workroom too."""
    here = Member.objects.create(workroom=people.workroom, user=people.stranger, role=Member.Role.READER)
    client.post(make_sign_in_address(member=here, by=people.keeper, at=timezone.now()))
    new = {"new_password1": "chalk and thread", "new_password2": "chalk and thread"}
    answer = client.post("/password/", new)
    assert "old_password" in answer.context["form"].errors
    assert "are a member of others too" in answer.text
    sign_in(people.stranger)


def ends_membership(people):
    people.workroom.members.get(user=people.maker).delete()


def changes_role(people):
    client = sign_in(people.keeper)
    client.post(f"/members/{people.workroom.members.get(user=people.maker).pk}/", {"role": "reader"})


def keeper_steps_down(people):
    people.workroom.members.filter(user=people.reader).update(role=Member.Role.KEEPER)
    client = sign_in(people.keeper)
    client.post(f"/members/{people.workroom.members.get(user=people.keeper).pk}/", {"role": "maker"})


def keeper_leaves(people):
    people.workroom.members.filter(user=people.reader).update(role=Member.Role.KEEPER)
    sign_in(people.keeper).post("/workroom/leave/")


@pytest.mark.parametrize("right_goes", [ends_membership, changes_role, keeper_steps_down, keeper_leaves])
def test_it_is_gone_when_the_right_goes_that_it_rests_on(client, people, made, right_goes):
    right_goes(people)
    assert client.get(made).status_code == 410
    assert client.post(made).status_code == 410


def test_it_does_not_come_back_with_the_right(client, people, made):
    changes_role(people)
    sign_in(people.keeper).post(
        f"/members/{people.workroom.members.get(user=people.maker).pk}/", {"role": "maker"}
    )
    assert client.post(made).status_code == 410


def test_a_new_password_ends_it(client, people, made):
    new = {"new_password1": "chalk and thread", "new_password2": "chalk and thread"}
    sign_in(people.maker).post("/password/", {"old_password": "a long enough word", **new})
    assert client.post(made).status_code == 410


def test_the_person_is_told_on_the_first_page_after_sign_in_and_once(people, made):
    maker = sign_in(people.maker)
    page = maker.get("/").text
    assert "keeper made an address that signs in as you: not used yet" in page
    assert "made an address" not in maker.get("/").text
    assert "made an address" not in sign_in(people.maker).get("/").text


def test_the_person_is_told_again_when_it_was_used(people, made):
    sign_in(people.maker)
    Client().post(made)
    assert "keeper made an address that signs in as you: used on" in sign_in(people.maker).get("/").text


def test_whoever_uses_it_cannot_keep_the_news_from_the_person(people, made):
    intruder = Client()
    intruder.post(made)
    assert "made an address" in intruder.get("/").text
    assert "used on" in sign_in(people.maker).get("/").text


def test_the_account_page_lists_them(client, people, made):
    client.force_login(people.maker)
    page = client.get("/preferences/").text
    assert "by keeper, for Attic table" in page
    assert "Not used yet" in page
    client.post(made)
    client.logout()
    client.force_login(people.maker)
    assert "Used on" in client.get("/preferences/").text


def test_one_made_on_the_machine_is_listed_and_no_news(people):
    one_time_path(people.maker)
    maker = sign_in(people.maker)
    assert "made an address" not in maker.get("/").text
    assert "by whoever runs this program" in maker.get("/preferences/").text


def test_only_a_digest_of_the_secret_is_kept(people, made):
    secret = made.split("/")[-2]
    kept = SignInAddress.objects.values().get()
    assert secret not in str(kept)


def test_a_person_in_no_other_workroom_is_not_asked_where_to_work(client, people, made):
    Workroom.objects.create(name="Nobody's")
    client.post(made)
    assert client.get("/").status_code == 200
