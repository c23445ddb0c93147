"""Members of a workroom: changed, removed by its keeper, leaving; it is never left without a keeper."""

import pytest
from django.contrib.messages import get_messages

from catalogue.workroom.models import Member, User
from tests.makers.rows import People


def place_of(people: People, user: User) -> Member:
    return people.workroom.members.get(user=user)


def said(answer) -> str:
    return " ".join(map(str, get_messages(answer.wsgi_request)))


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


def test_a_role_is_changed(keeper, people):
    member = place_of(people, people.reader)
    keeper.post(f"/members/{member.pk}/", {"role": "maker"})
    member.refresh_from_db()
    assert member.role == Member.Role.MAKER


def test_the_last_keeper_stays_keeper(keeper, people):
    member = place_of(people, people.keeper)
    answer = keeper.post(f"/members/{member.pk}/", {"role": "maker"})
    assert "would have no keeper" in answer.context["form"].errors["role"][0]
    member.refresh_from_db()
    assert member.role == Member.Role.KEEPER


def test_the_last_keeper_is_told_what_to_do_before_they_leave(keeper, people):
    page = keeper.get("/workroom/leave/").text
    assert "Make another member keeper first" in page
    assert '<form method="post" class="sheet"' not in page
    assert "Make another member keeper first" in said(keeper.post("/workroom/leave/"))
    assert place_of(people, people.keeper).is_keeper


def test_one_of_two_keepers_may_leave(keeper, people):
    keeper.post(f"/members/{place_of(people, people.maker).pk}/", {"role": "keeper"})
    assert (
        keeper.get(f"/members/{place_of(people, people.keeper).pk}/remove/")["Location"] == "/workroom/leave/"
    )
    keeper.post("/workroom/leave/")
    assert people.workroom.members.get(role=Member.Role.KEEPER).user == people.maker


def test_leaving_asks_first(client, people):
    client.force_login(people.reader)
    assert "no longer see anything of Attic table" in client.get("/workroom/leave/").text
    assert place_of(people, people.reader)
    client.post("/workroom/leave/")
    assert not people.workroom.members.filter(user=people.reader).exists()
    assert "You are in no workroom yet" in client.get("/").text


def test_removing_asks_first(keeper, people):
    member = place_of(people, people.maker)
    assert "no longer see" in keeper.get(f"/members/{member.pk}/remove/").text
    assert Member.objects.filter(pk=member.pk).exists()
    keeper.post(f"/members/{member.pk}/remove/")
    assert not Member.objects.filter(pk=member.pk).exists()
    assert User.objects.filter(pk=people.maker.pk).exists()


def test_the_page_shows_a_reader_the_members_without_the_ways_to_change_them(client, people):
    client.force_login(people.reader)
    page = client.get("/workroom/").text
    assert "keeper: everything" in page
    assert "/members/" not in page
    assert "/invitations/" not in page
