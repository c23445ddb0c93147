"""Somebody new opens an invitation on a narrow screen and joins; the pages that only they see."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.browser.test_every_page import NARROW, PAST_THE_EDGE, WCAG, faults


@pytest.fixture
def guest(browser: Browser, base: str) -> Iterator[Page]:
    """The browser of somebody who is not signed in."""
    context = browser.new_context(base_url=base, viewport=NARROW)
    yield context.new_page()
    context.close()


def check(page: Page) -> None:
    page.evaluate(Axe().axe_script)
    assert faults(page, WCAG) == []
    assert page.evaluate(PAST_THE_EDGE) == []


def test_somebody_new_joins_by_the_address_they_were_given(page: Page, guest: Page):
    page.goto("/workroom/")
    page.get_by_role("link", name="Invite somebody").click()
    page.get_by_label("Whom do you invite?").fill("Florian Achtrupp")
    page.get_by_label("reader: looks only").check()
    page.get_by_role("button", name="Make the invitation").click()
    address = page.get_by_label("Address to hand to Florian Achtrupp").input_value()

    guest.goto(address)
    expect(guest).to_have_url("/invitation/")
    check(guest)
    guest.get_by_role("link", name="I am new here").click()
    check(guest)
    assert guest.get_by_label("Sign-in name").input_value().startswith("florian-achtrupp-")
    for label in ("Password", "The same again"):
        guest.get_by_label(label, exact=True).fill("linen under wool")
    guest.get_by_role("button", name="Join").click()
    expect(guest.get_by_role("status")).to_contain_text("You sign in as florian-achtrupp-")

    guest.goto("/workroom/leave/")
    check(guest)
    guest.get_by_role("button", name="Leave the workroom").click()
    expect(guest.get_by_role("heading", level=1)).to_have_text("You are in no workroom yet")
    guest.goto(address)
    expect(guest.get_by_role("heading", level=1)).to_contain_text("has been answered or withdrawn")


def test_the_browser_that_signs_in_says_where_it_is(page: Page, browser: Browser, base: str):
    page.goto("/workroom/")
    page.get_by_role("button", name="New sign-in address for Perrin").click()
    address = page.get_by_label("Address").input_value()
    in_paris = browser.new_context(base_url=base, timezone_id="Europe/Paris").new_page()
    in_paris.goto(address)
    assert in_paris.locator("[name=time_zone]").input_value() == "Europe/Paris"
    in_paris.context.close()
