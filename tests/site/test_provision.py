"""What the system lacks is installed where that is possible, and named where it is not."""

import subprocess

import pytest

from fitting.site import provision


@pytest.fixture
def shop(monkeypatch) -> list[list[str]]:
    """A Debian whose apt-get notes what it is asked for; a need is met once its package was asked for."""
    asked: list[list[str]] = []

    def run(command, **_) -> subprocess.CompletedProcess:
        asked.append(command)
        return subprocess.CompletedProcess(command, 0)

    monkeypatch.setattr(provision, "_is_debian", lambda: True)
    monkeypatch.setattr(provision.subprocess, "run", run)
    return asked


def make_need(shop: list[list[str]], package: str) -> provision.Need:
    return provision.Need(
        name="A bone folder",
        use="creasing",
        debian=(package,),
        elsewhere="ask a bookbinder",
        is_there=lambda: any(package in command for command in shop),
    )


def test_root_on_debian_gets_what_is_absent(shop, monkeypatch):
    monkeypatch.setattr(provision.os, "geteuid", lambda: 0)
    assert provision.provide(make_need(shop, "bone-folder"), make_need(shop, "awl")) == []
    update, install = shop
    assert update[-1] == "update"
    assert install[-2:] == ["awl", "bone-folder"]


def test_anyone_else_on_debian_is_told_what_to_type(shop, monkeypatch):
    monkeypatch.setattr(provision.os, "geteuid", lambda: 1000)
    (sentence,) = provision.provide(make_need(shop, "awl"))
    assert sentence == "A bone folder is missing (creasing); type: sudo apt-get install awl"
    assert shop == []


def test_elsewhere_another_way_is_named(shop, monkeypatch):
    monkeypatch.setattr(provision, "_is_debian", lambda: False)
    (sentence,) = provision.provide(make_need(shop, "awl"))
    assert sentence == "A bone folder is missing (creasing); ask a bookbinder"


def test_nothing_is_asked_for_twice(shop):
    shop.append(["awl"])
    assert provision.provide(make_need(shop, "awl")) == []
    assert shop == [["awl"]]
