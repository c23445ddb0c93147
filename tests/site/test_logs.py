"""What is logged of a request: its path, but never the secret part of an address that lets its holder in."""

import logging

import pytest
from django.test import Client

from fitting.planning.actions import give_address
from tests.makers.rows import make_invitation, one_time_path


@pytest.fixture
def paths(people) -> dict[str, str]:
    """Each secret address as it works, by what it begins with."""
    return {
        "/sign-in/once/": one_time_path(people.maker),
        "/invited/": make_invitation(people.workroom, by=people.keeper)[1],
        "/calendar/": f"/calendar/{give_address(people.workroom, user=people.maker)}.ics",
        "/shown/": "/shown/some-secret-of-a-share/",
    }


@pytest.mark.parametrize("start", ["/sign-in/once/", "/invited/", "/calendar/", "/shown/"])
def test_a_refused_request_is_logged_without_the_secret(paths, caplog, start):
    path, client = paths[start], Client(enforce_csrf_checks=True)
    assert client.post(path).status_code in {403, 405}
    client.get(path.replace(path[-9:], "xx/"))
    logged = caplog.text
    assert f"{start}…" in logged
    assert path.removeprefix(start)[:12] not in logged


def test_other_paths_are_logged_whole(client, db, caplog):
    client.get("/nowhere/else/")
    assert "/nowhere/else/" in caplog.text


def test_the_server_is_silent_about_them_too(caplog):
    logging.getLogger("waitress").warning("Client disconnected while serving %s", "/sign-in/once/abc/")
    assert "abc" not in caplog.text
