"""Finding a garment by keyboard, without a script and on a narrow screen, whichever way the list is shown."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.test_every_page import PAST_THE_EDGE, WCAG, faults

# The walk takes an address without what follows its question mark.
WAYS = {
    "cards": "/references/?text=linen&kind=jacket&line=waist&girth_from=20",
    "table": "/references/?as=table&text=silk",
    "time line": "/references/?as=time",
    "nothing found": "/references/?text=zzz",
    "a filter not understood": "/references/?girth_from=20-24&year_from=1790&year_to=1780",
    "side by side": "/references/side-by-side/?garment=2&garment=4&garment=6",
}


@pytest.fixture
def scriptless(browser: Browser, keeper: BrowserContext, base: str) -> Iterator[Page]:
    context = browser.new_context(
        base_url=base, storage_state=keeper.storage_state(), java_script_enabled=False
    )
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("way", WAYS)
def test_the_list_has_no_fault_that_axe_knows_and_fits_320_pixels(way: str, page: Page):
    page.goto(WAYS[way])
    page.evaluate(Axe().axe_script)
    assert faults(page, WCAG) == []
    page.emulate_media(color_scheme="dark")
    assert faults(page, ["color-contrast"]) == []
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate(PAST_THE_EDGE) == []


def test_a_garment_is_found_by_the_keyboard_alone(page: Page):
    page.goto("/references/")
    page.get_by_label("Words").focus()
    page.keyboard.type("pinned sprigs")
    page.keyboard.press("Enter")
    expect(page.locator("mark").first).to_have_text("sprigs")
    # Through the filters that stand in sight, and open those that are folded away.
    page.get_by_label("Words").focus()
    for _ in range(5):
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "More filters"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("thornby")
    page.keyboard.press("Enter")
    expect(page.get_by_role("list", name="Filters in use").get_by_role("link")).to_have_count(
        3
    )  # and one to clear all
    # Clear the first of the two.
    page.get_by_role("link", name="Clear the filter Words: pinned sprigs").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/references/?place=thornby")


def test_the_time_line_is_walked_from_garment_to_garment(page: Page):
    page.goto("/references/?as=time")
    page.get_by_role("region", name="Time line").focus()
    names = []
    for _ in range(4):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.querySelector('text').textContent"))
    assert names == [
        "Hooded cloak of red wool",
        "Breadth of a quilted petticoat",
        "Waistcoat of figured silk",
        "Shift of coarse linen",
    ]
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Shift of coarse linen")


def test_filters_are_kept_used_and_forgotten_without_a_script(scriptless: Page):
    page = scriptless
    page.goto("/references/")
    page.locator("#id_kind").select_option("petticoat")
    page.get_by_role("button", name="Show").click()
    page.get_by_label("Keep these filters as").fill("Petticoats, all")
    page.get_by_role("button", name="Keep", exact=True).click()
    page.goto("/references/")
    page.get_by_role("link", name="Petticoats, all", exact=True).click()
    expect(page.locator(".card")).to_have_count(2)
    page.get_by_role("link", name="forget the filter Petticoats, all").click()
    page.get_by_role("button", name="Forget the filter").click()
    expect(page.get_by_role("link", name="Petticoats, all", exact=True)).to_have_count(0)


def test_two_garments_are_ticked_and_laid_side_by_side_without_a_script(scriptless: Page):
    page = scriptless
    page.goto("/references/")
    page.get_by_label("Side by side: Half-boned stays").check()
    page.get_by_label("Side by side: Short jacket of printed linen").check()
    page.get_by_role("button", name="Lay those ticked side by side").click()
    row = page.get_by_role("region", name="Girths and lengths").get_by_role("row", name="Waist")
    expect(row.first).to_contain_text("27 in")


def test_outlines_are_laid_otherwise_without_a_script(scriptless: Page):
    scriptless.goto("/references/")
    for name in ("Short jacket of printed linen", "Waistcoat of figured silk"):
        scriptless.locator(".card", has_text=name).get_by_label("Side by side").check()
    scriptless.get_by_role("button", name="Lay those ticked side by side").click()
    waistcoat = scriptless.get_by_role("group", name="Waistcoat of figured silk")
    outline = scriptless.locator("path.laid-line").first  # the waistcoat is the older of the two
    drawn = outline.get_attribute("d")
    waistcoat.get_by_label("It lies").select_option("mirrored")
    waistcoat.get_by_label("Edge to hold against the others").select_option("armhole")
    scriptless.get_by_role("button", name="Lay them so").click()
    expect(waistcoat.get_by_label("It lies")).to_have_value("mirrored")
    expect(outline).not_to_have_attribute("d", drawn)
    expect(scriptless.locator("#outlines")).to_contain_text("armhole of A and shoulder of B")
    table = scriptless.get_by_role("region", name="Lines that A and B share")
    expect(table.get_by_role("rowheader", name="armhole")).to_be_visible()
