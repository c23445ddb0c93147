"""An invitation is answered by whoever it was handed to; until then nothing moves. No name is found out."""

import re

import pytest
from django.test import Client

from catalogue.workroom.actions.members import INVITATION_LASTS
from catalogue.workroom.models import Member, User
from catalogue.workroom.models.one_time import Invitation
from tests.makers.rows import make_invitation, one_time_path

NEW = {"new_password1": "linen under wool", "new_password2": "linen under wool"}


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


def signed_in(user: User) -> Client:
    client = Client()
    client.force_login(user)
    return client


@pytest.fixture
def path(people) -> str:
    """Where an invitation of the keeper's is opened."""
    return make_invitation(people.workroom, by=people.keeper, role=Member.Role.READER)[1]


def is_member(people, user: User) -> bool:
    return people.workroom.members.filter(user=user).exists()


def without_secrets(page: str) -> str:
    page = re.sub(r'csrfmiddlewaretoken" value="\w+', "", page)
    return re.sub(r"/invited/[\w-]+/|/invitations/\d+/", "", page)


def test_a_name_that_signs_in_elsewhere_and_one_that_does_not_look_alike_to_the_keeper(keeper, people):
    pages = []
    for name in ("stranger", "nobody"):
        answer = keeper.post("/invitations/add/", {"name": name, "role": "maker"})
        lists = keeper.get("/workroom/").text
        pages.append(
            [
                (answer.status_code, without_secrets(text).replace(name, "NAME"))
                for text in (answer.text, lists)
            ]
        )
        Invitation.objects.all().delete()
    assert pages[0] == pages[1]
    assert "NAME" in pages[0][1][1]
    assert not is_member(people, people.stranger)


def test_somebody_with_a_place_elsewhere_sees_who_invites_and_accepts(people, path):
    stranger = signed_in(people.stranger)
    assert stranger.get(path)["Location"] == "/invitation/"
    page = stranger.get("/invitation/").text
    assert "You are invited to Attic table" in page
    assert "keeper invites you" in page
    assert not is_member(people, people.stranger)
    stranger.post("/invitation/", {"accept": ""})
    assert people.workroom.members.get(user=people.stranger).role == Member.Role.READER


def test_somebody_in_no_workroom_is_in_this_one_when_they_accept(people, path):
    newcomer = signed_in(User.objects.create_user(username="newcomer"))
    newcomer.get(path)
    page = newcomer.post("/invitation/", {"accept": ""}, follow=True)
    assert "You are a member of Attic table now." in page.text
    assert page.context["workroom"] == people.workroom


def test_it_waits_on_every_page_until_it_is_answered(people, path):
    stranger = signed_in(people.stranger)
    stranger.get(path)
    assert "waits for your answer" in stranger.get("/").text
    stranger.post("/invitation/", {"decline": ""})
    assert "waits for your answer" not in stranger.get("/").text


def test_declined_it_is_over_and_the_keeper_sees_so(keeper, people, path):
    stranger = signed_in(people.stranger)
    stranger.get(path)
    stranger.post("/invitation/", {"decline": ""})
    assert not is_member(people, people.stranger)
    assert stranger.get(path).status_code == 410
    assert "declined on" in keeper.get("/workroom/").text


def test_somebody_who_is_not_signed_in_signs_in_and_is_back_at_the_invitation(client, people, path):
    client.get(path)
    page = client.get("/invitation/").text
    sign_in = re.search(r'href="(/sign-in/\?next=/invitation/)"', page)[1]
    answer = client.post(sign_in, {"username": "stranger", "password": "a long enough word"}, follow=True)
    assert answer.redirect_chain == [("/invitation/", 302)]
    assert 'name="accept"' in answer.text
    assert not is_member(people, people.stranger)


def test_somebody_new_makes_a_sign_in_name_and_is_a_member(client, people, path):
    client.get(path)
    form = client.get("/invitation/join/").context["form"]
    username = form["username"].value()
    assert re.fullmatch(r"ines-\d{4}", username)
    answer = client.post(
        "/invitation/join/", {"name": "Ines Marlowe", "username": username, **NEW}, follow=True
    )
    assert f"You sign in as {username}." in answer.text
    ines = people.workroom.members.get(user__username=username).user
    assert str(ines) == "Ines Marlowe"
    assert Client().login(username=username, password="linen under wool")
    assert client.get("/workroom/").context["workroom"] == people.workroom


@pytest.mark.parametrize("name", ["stranger", "nobody"])
def test_whether_a_name_is_taken_is_not_found_out_by_joining(client, people, path, name):
    """The answer is the same for each, and each may begin one's own name."""
    client.get(path)
    page = client.get("/invitation/join/")
    ending = page.context["form"].ending
    refused = client.post("/invitation/join/", {"name": "Ines", "username": name, **NEW})
    assert refused.context["form"].errors["username"] == [f"Leave {ending} at the end of your sign-in name."]
    client.post("/invitation/join/", {"name": "Ines", "username": f"{name}{ending}", **NEW})
    assert people.workroom.members.filter(user__username=f"{name}{ending}").exists()


def test_withdrawn_it_opens_nothing_even_for_whoever_has_it_on_screen(keeper, people):
    invitation, path = make_invitation(people.workroom, by=people.keeper)
    stranger = signed_in(people.stranger)
    stranger.get(path)
    keeper.post(f"/invitations/{invitation.pk}/withdraw/")
    assert "Ines" not in keeper.get("/workroom/").text.partition("Members</caption>")[2]
    assert stranger.post("/invitation/", {"accept": ""}).status_code == 410
    assert stranger.get(path).status_code == 410
    assert not is_member(people, people.stranger)


def test_it_ends_by_itself(client, people, path, monkeypatch):
    Invitation.objects.update(expires_at=Invitation.objects.get().expires_at - INVITATION_LASTS)
    assert client.get(path).status_code == 410


def test_it_is_answered_once(people, path):
    first, second = signed_in(people.stranger), Client()
    for client in (first, second):
        client.get(path)
    first.post("/invitation/", {"accept": ""})
    late = second.post("/invitation/join/", {"name": "X", "username": "x", **NEW}, follow=True)
    assert late.status_code == 410
    assert people.workroom.members.count() == 4


@pytest.mark.parametrize("change", ["change", "leave"])
def test_it_ends_when_who_made_it_keeps_the_workroom_no_longer(people, client, path, change):
    maker = people.workroom.members.get(user=people.maker)
    own = people.workroom.members.get(user=people.keeper)
    keeper = signed_in(people.keeper)
    keeper.post(f"/members/{maker.pk}/", {"role": "keeper"})
    assert client.get(path).status_code == 302
    if change == "leave":
        keeper.post("/workroom/leave/")
    else:
        keeper.post(f"/members/{own.pk}/", {"role": "maker"})
    assert client.get(path).status_code == 410


def test_a_member_who_opens_it_is_told_that_it_is_for_somebody_else(people, path):
    maker = signed_in(people.maker)
    maker.get(path)
    assert "a member of Attic table already" in maker.get("/invitation/").text
    maker.post("/invitation/", {"accept": ""})
    assert signed_in(people.stranger).get(path).status_code == 302
    assert people.workroom.members.get(user=people.maker).role == Member.Role.MAKER


def test_whoever_came_in_by_a_one_time_address_answers_for_nobody(people, path):
    """A keeper who lets themselves in as a member cannot take that member elsewhere."""
    client = Client()
    client.post(one_time_path(people.stranger, by=people.stranger))
    client.get(path)
    assert "so we know that it is you" in client.get("/invitation/").text
    client.post("/invitation/", {"accept": ""})
    assert not is_member(people, people.stranger)
