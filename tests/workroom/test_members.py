"""Members of a workroom: added, changed, removed by its keeper, who is never the last to go."""

import pytest
from django.contrib.messages import get_messages

from catalogue.workroom.models import Member, User, Workroom
from tests.makers.rows import People


def place_of(people: People, user: User) -> Member:
    return people.workroom.members.get(user=user)


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


def test_a_new_member_comes_in_by_the_address_that_is_shown_once(keeper, client, people):
    answer = keeper.post("/members/add/", {"username": "ines", "role": "maker"})
    address = answer.context["address"]
    assert address in answer.content.decode()
    ines = User.objects.get(username="ines")
    assert not ines.has_usable_password()
    client.logout()
    answer = client.post(address.removeprefix("http://testserver"))
    assert "/password/" in str(next(iter(get_messages(answer.wsgi_request))))
    client.post("/password/", {"new_password1": "linen under wool", "new_password2": "linen under wool"})
    ines.refresh_from_db()
    assert ines.check_password("linen under wool")
    assert client.get("/workroom/").status_code == 200


def test_a_name_that_is_taken_is_not_let_in_by_a_slip(keeper, people):
    answer = keeper.post("/members/add/", {"username": "stranger", "role": "maker"})
    assert "is taken" in answer.context["form"].errors["username"][0]
    assert not people.workroom.members.filter(user=people.stranger).exists()


def test_a_person_of_another_workroom_joins_without_a_new_address(keeper, people):
    answer = keeper.post("/members/add/", {"username": "stranger", "role": "reader", "is_known": "on"})
    assert answer["Location"] == "/workroom/"
    assert people.workroom.members.get(user=people.stranger).role == Member.Role.READER


def test_a_person_said_to_be_known_must_be(keeper, people):
    answer = keeper.post("/members/add/", {"username": "nobody", "role": "reader", "is_known": "on"})
    assert "is_known" in answer.context["form"].errors
    assert not User.objects.filter(username="nobody").exists()


def test_a_member_is_not_added_twice(keeper, people):
    answer = keeper.post("/members/add/", {"username": "maker", "role": "maker", "is_known": "on"})
    assert "member already" in answer.context["form"].errors["username"][0]


def test_a_keeper_cannot_open_another_workroom_by_renewing_an_address(keeper, people):
    Member.objects.create(workroom=people.workroom, user=people.stranger, role=Member.Role.READER)
    member = place_of(people, people.stranger)
    assert keeper.post(f"/members/{member.pk}/sign-in-address/").status_code == 403
    own = place_of(people, people.reader)
    assert keeper.post(f"/members/{own.pk}/sign-in-address/").status_code == 200


def test_a_role_is_changed(keeper, people):
    member = place_of(people, people.reader)
    keeper.post(f"/members/{member.pk}/", {"role": "maker"})
    member.refresh_from_db()
    assert member.role == Member.Role.MAKER


def test_the_last_keeper_stays_keeper(keeper, people):
    member = place_of(people, people.keeper)
    answer = keeper.post(f"/members/{member.pk}/", {"role": "maker"})
    assert "last keeper" in answer.context["form"].errors["role"][0]
    answer = keeper.post(f"/members/{member.pk}/remove/")
    assert "last keeper" in str(next(iter(get_messages(answer.wsgi_request))))
    member.refresh_from_db()
    assert member.role == Member.Role.KEEPER


def test_one_of_two_keepers_may_go(keeper, people):
    other = place_of(people, people.maker)
    keeper.post(f"/members/{other.pk}/", {"role": "keeper"})
    keeper.post(f"/members/{place_of(people, people.keeper).pk}/remove/")
    assert people.workroom.members.get(role=Member.Role.KEEPER).user == people.maker


def test_removing_asks_first(keeper, people):
    member = place_of(people, people.maker)
    assert "no longer see" in keeper.get(f"/members/{member.pk}/remove/").content.decode()
    assert Member.objects.filter(pk=member.pk).exists()
    keeper.post(f"/members/{member.pk}/remove/")
    assert not Member.objects.filter(pk=member.pk).exists()
    assert User.objects.filter(pk=people.maker.pk).exists()


def test_a_person_of_two_workrooms_changes_between_them(client, people):
    other = Workroom.objects.create(name="Second house")
    Member.objects.create(workroom=other, user=people.maker, role=Member.Role.READER)
    client.force_login(people.maker)
    assert client.get("/workroom/").context["workroom"] == people.workroom
    client.post("/workroom/switch/", {"workroom": other.pk})
    assert client.get("/workroom/").context["workroom"] == other


@pytest.mark.parametrize("chosen", ["999999", "x", ""])
def test_nobody_changes_to_a_workroom_they_are_not_in(client, people, chosen):
    client.force_login(people.maker)
    assert client.post("/workroom/switch/", {"workroom": chosen}).status_code == 404


def test_the_page_shows_a_reader_the_members_without_the_ways_to_change_them(client, people):
    client.force_login(people.reader)
    page = client.get("/workroom/").content.decode()
    assert "keeper: everything" in page
    assert "/members/" not in page
