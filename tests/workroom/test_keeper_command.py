"""The command that makes a workroom with its first keeper, and gives a keeper a new address."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from catalogue.workroom.models import Member, User, Workroom


def run(*typed: str) -> str:
    out = StringIO()
    call_command("keeper", *typed, stdout=out)
    return out.getvalue().strip().splitlines()[-1]


@pytest.mark.django_db
def test_a_first_keeper_gets_a_workroom_and_an_address(client):
    address = run("agnes", "--workroom", "Back room", "--at", "http://testserver/")
    member = Member.objects.get(user__username="agnes")
    assert (member.role, member.workroom.name) == (Member.Role.KEEPER, "Back room")
    assert client.post(address.removeprefix("http://testserver"))["Location"] == "/"
    assert client.get("/workroom/").status_code == 200


@pytest.mark.django_db
def test_a_keeper_who_is_there_gets_a_new_address_and_no_second_workroom(client):
    run("agnes")
    address = run("agnes")
    assert Workroom.objects.count() == User.objects.count() == 1
    assert client.post(address.removeprefix("http://127.0.0.1:8000")).status_code == 302


@pytest.mark.django_db
def test_a_keeper_of_two_workrooms_says_which(client):
    for name in ("Back room", "Front room"):
        run("agnes", "--workroom", name)
    with pytest.raises(CommandError, match="“Back room”, “Front room”: name one with --workroom"):
        run("agnes")
    address = run("agnes", "--workroom", "Front room")
    assert Workroom.objects.count() == 2
    client.post(address.removeprefix("http://127.0.0.1:8000"))
    assert client.get("/workroom/").context["workroom"].name == "Front room"


@pytest.mark.django_db
def test_a_name_that_cannot_be_typed_at_the_door_is_refused():
    with pytest.raises(CommandError, match="cannot be a user name"):
        run("agnes b")
    assert not User.objects.exists()


@pytest.mark.django_db
def test_names_longer_than_a_row_holds_are_refused_with_a_sentence():
    for names in (("x" * 101,), ("keeper", "--workroom", "x" * 101)):
        with pytest.raises(CommandError, match="at most 100 letters"):
            call_command("keeper", *names)
    assert not User.objects.exists()
