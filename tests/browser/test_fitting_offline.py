"""A fitting where there is no connection at all: its page opens again, and what was seen is sent later."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect

ADDRESS = "/fittings/3/hold/"
ALL_PARTS = (
    "caches.open('fittings held').then((kept) => kept.keys()).then((all) => all.map((one) => one.url))"
)


@pytest.fixture
def telephone(keeper: BrowserContext, browser: Browser, base: str) -> Iterator[Page]:
    """A telephone of its own, signed in, that may be without a connection."""
    context = browser.new_context(
        base_url=base, viewport={"width": 390, "height": 844}, storage_state=keeper.storage_state()
    )
    yield context.new_page()
    context.close()


def open_until_kept(page: Page) -> None:
    page.goto(ADDRESS)
    expect(page.locator("[data-opens]")).to_contain_text("opens on this telephone without a connection")


def tap(page: Page, place: str, what: str) -> None:
    page.get_by_role("radio", name="Stays", exact=True).check()
    page.get_by_role("radio", name=place, exact=True).check()
    page.get_by_role("button", name=what, exact=True).click()


def test_the_page_opens_without_a_connection_and_sends_later_what_was_seen(telephone: Page):
    open_until_kept(telephone)
    telephone.context.set_offline(True)
    telephone.close()
    page = telephone.context.new_page()
    page.goto(f"{ADDRESS}?garment=2")
    # The worker has no connection either: what it did not keep is not there.
    assert (
        page.evaluate("fetch('/static/never-kept.css').then(() => 'there', () => 'not there')") == "not there"
    )
    tap(page, "hip", "Strains")
    expect(page.locator("[data-waiting]")).to_contain_text("1 waiting to be sent. No connection")
    assert "grid" in page.locator(".taps-many").evaluate("(one) => getComputedStyle(one).display")
    page.context.set_offline(False)
    expect(page.locator("[data-kept]")).to_contain_text("hip: strains")
    expect(page.locator("[data-waiting]")).to_be_hidden()
    page.reload()
    expect(page.locator("[data-kept]")).to_contain_text("hip: strains")


def test_only_the_page_of_the_fitting_and_its_parts_are_kept(telephone: Page):
    open_until_kept(telephone)
    telephone.goto("/wearers/")
    telephone.goto("/fittings/")
    kept = {re.sub(r"^http://[^/]+", "", address) for address in telephone.evaluate(ALL_PARTS)}
    assert ADDRESS in kept
    assert all(address == ADDRESS or address.startswith("/static/") for address in kept)
    telephone.context.set_offline(True)
    with pytest.raises(Error, match="ERR_INTERNET_DISCONNECTED"):
        telephone.goto("/fittings/")


def test_signing_out_leaves_nothing_behind(telephone: Page):
    open_until_kept(telephone)
    # Signing out here must not end the session that the other tests share.
    telephone.route("**/sign-out/", lambda route: route.fulfill(status=200, body="signed out"))
    telephone.get_by_text("Workroom", exact=True).click()
    telephone.get_by_role("button", name="Sign out").click()
    expect(telephone.get_by_text("signed out")).to_be_visible()
    assert telephone.evaluate("caches.keys()") == []


def test_who_is_no_longer_signed_in_finds_nothing_kept(telephone: Page):
    open_until_kept(telephone)
    telephone.context.clear_cookies()
    telephone.goto(ADDRESS)
    expect(telephone).to_have_url(re.compile("/sign-in/"))
    assert telephone.evaluate("caches.keys()") == []
