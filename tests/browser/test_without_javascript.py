"""The main flows with JavaScript switched off: every page posts, and is answered."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect


@pytest.fixture
def page(browser: Browser, keeper: BrowserContext, base: str) -> Iterator[Page]:
    """The keeper's page in a browser that runs no script."""
    context = browser.new_context(
        base_url=base, storage_state=keeper.storage_state(), java_script_enabled=False
    )
    yield context.new_page()
    context.close()


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.click()


def test_a_quick_comparison_is_reckoned_and_kept(page: Page):
    page.goto("/quick/")
    press(page, "Fill in an example")
    press(page, "Compare")
    expect(page.locator(".verdict").first).to_be_visible()
    page.get_by_label("Outfit").fill("Try-out without a script")
    press(page, "Keep this")
    expect(page.get_by_role("status")).to_contain_text("Kept")
    expect(page.get_by_role("navigation", name="You are in")).to_contain_text("Try-out without a script")


def test_a_reference_garment_with_a_plate_is_entered_and_its_girth_appears(page: Page):
    page.goto("/references/add/")
    page.get_by_label("Name").fill("Waistband of a work apron")
    page.locator("main button.primary").click()
    page.get_by_role("link", name="Add a plate").first.click()
    page.get_by_label("Seam allowance").select_option("none")
    page.locator("main button.primary").click()
    page.get_by_role("link", name="Enter them one by one").click()
    page.get_by_label("Name").fill("band")
    page.locator("main button.primary").click()
    page.get_by_label("band, waist", exact=True).fill("1 9/16")
    press(page, "Keep and reckon")
    # Twice a half of 1 9/16 in at 1:8, the usual scale: 25 in.
    expect(page.get_by_role("region", name="Readings")).to_contain_text("25 in")


def test_choosing_a_proportional_draft_asks_what_it_was_drawn_for(page: Page):
    page.goto("/references/1/plates/add/")
    drawn_for = page.get_by_label("Drawn for")
    expect(drawn_for).to_be_hidden()
    page.get_by_label("What it shows").select_option("draft")
    drawn_for.fill("half")
    page.get_by_label("Seam allowance").select_option("none")
    page.locator("main button.primary").click()
    expect(drawn_for).to_have_value("half")
    drawn_for.fill("18")
    page.locator("main button.primary").click()
    expect(page.get_by_role("main")).to_contain_text("a proportional draft for half bust or chest 18 in")


def test_a_garment_is_compared_and_its_route_chosen(page: Page):
    page.goto("/outfits/")
    page.get_by_role("link", name="The weaver").click()
    page.get_by_role("link", name="Waistcoat", exact=True).first.click()
    press(page, "Compare with the wearer")
    page.get_by_role("link", name="Choose").first.click()
    page.get_by_label("it is recommended").check()
    press(page, "Choose it")
    expect(page.get_by_role("status")).to_contain_text("chosen")


def test_what_was_typed_wrongly_is_still_in_its_box(page: Page):
    page.goto("/quick/")
    press(page, "Fill in an example")
    box = page.locator("input[name$=-body]").first
    box.fill("26 1/0 in")
    press(page, "Compare")
    expect(page.get_by_role("alert")).to_be_visible()
    expect(box).to_have_value("26 1/0 in")


def test_a_dossier_is_made_while_its_page_looks_again_by_itself(page: Page):
    page.goto("/outfits/1/")
    page.get_by_role("link", name="Print a dossier").click()
    press(page, "Make the PDF")
    expect(page.get_by_role("link", name="Download the PDF")).to_be_visible(timeout=60_000)


def test_the_menu_opens_and_signs_out(page: Page):
    page.goto("/")
    page.locator("details.menu summary").click()
    page.get_by_role("link", name="Inches or centimetres").click()
    expect(page.get_by_role("heading", level=1)).to_be_visible()


def test_an_observation_is_kept_in_three_taps(page: Page):
    page.goto("/fittings/3/hold/")
    page.get_by_role("radio", name="Stays").check()
    page.get_by_role("radio", name="waist").check()
    press(page, "let out 1/2 in")
    expect(page.get_by_role("status").first).to_contain_text("Kept: Stays, waist: let out 1/2 in")
