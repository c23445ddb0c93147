"""A password of one's own: without the old one only for somebody who came in by a one-time address."""

from catalogue.workroom.models import Member
from tests.makers.rows import one_time_path

NEW = {"new_password1": "chalk and thread", "new_password2": "chalk and thread"}


def test_the_old_password_is_asked_for(client, people):
    client.force_login(people.maker)
    assert "old_password" in client.post("/password/", NEW).context["form"].errors
    client.post("/password/", {"old_password": "a long enough word", **NEW})
    people.maker.refresh_from_db()
    assert people.maker.check_password("chalk and thread")


def test_somebody_who_forgot_it_comes_in_once_and_sets_a_new_one(client, people):
    client.post(one_time_path(people.maker))
    assert client.post("/password/", NEW)["Location"] == "/"
    people.maker.refresh_from_db()
    assert people.maker.check_password("chalk and thread")
    # And stays signed in; the next time the old one is asked for again.
    assert "old_password" in client.get("/password/").context["form"].fields


def test_a_weak_password_is_refused_in_words(client, people):
    client.post(one_time_path(people.maker))
    answer = client.post("/password/", {"new_password1": "1234", "new_password2": "1234"})
    assert len(answer.context["form"].errors["new_password2"]) >= 2


def test_whoever_has_the_machine_lets_a_member_of_two_workrooms_set_a_new_one(client, people):
    path = one_time_path(people.maker)
    Member.objects.create(
        workroom=people.stranger.memberships.get().workroom, user=people.maker, role=Member.Role.READER
    )
    client.post(path)
    assert client.post("/password/", NEW)["Location"] == "/"
