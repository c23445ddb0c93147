"""Hands on the keyboard only: past the header, to what a page is for, down a column of boxes."""

from itertools import takewhile

import pytest
from playwright.sync_api import Page, expect

from tests.browser.addresses import Walk

FOCUSED = """() => {
    const part = document.activeElement, look = getComputedStyle(part), box = part.getBoundingClientRect();
    return {
        isPage: part === document.body,
        says: part.ariaLabel || part.innerText || part.id || part.outerHTML,
        ringed: look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2,
        seen: box.width > 0 && box.bottom > 0 && box.top < innerHeight,
    };
}"""
# Pages that differ most in what they ask of the hands.
PAGES = ("home", "quick-comparison", "plate-detail", "measures-change", "garment-detail", "garment-change")


def tab(page: Page) -> dict:
    page.keyboard.press("Tab")
    return page.evaluate(FOCUSED)


def test_the_first_tab_offers_to_skip_the_header(walked: Walk, page: Page):
    page.goto(walked.fullest["garment-detail"])
    assert tab(page)["says"] == "Skip to the page"
    page.keyboard.press("Enter")
    expect(page.locator("#main")).to_be_focused()


def test_after_skipping_the_way_to_the_main_action_is_short(walked: Walk, page: Page):
    page.goto(walked.fullest["garment-detail"])
    tab(page)
    page.keyboard.press("Enter")
    # Two crumbs lie before it.
    assert "Compare" in [tab(page)["says"] for _ in range(3)][-1]


@pytest.mark.parametrize("name", PAGES)
def test_whatever_takes_the_focus_shows_it(name: str, walked: Walk, page: Page):
    page.goto(walked.fullest[name])
    stops = list(takewhile(lambda at: not at["isPage"], (tab(page) for _ in range(100))))
    assert len(stops) > 5
    assert [at["says"] for at in stops if not (at["ringed"] and at["seen"])] == []


def test_enter_goes_down_a_column_of_readings_and_on_to_the_next(walked: Walk, page: Page):
    page.goto(walked.fullest["plate-detail"])
    columns = page.evaluate(
        """() => [...document.querySelectorAll("table.readings tbody tr")].map((row) =>
            [...row.querySelectorAll("td > input.length")].map((box) => box.id))"""
    )
    page.locator(f"#{columns[0][0]}").focus()
    for row in columns[1:]:
        page.keyboard.press("Enter")
        expect(page.locator(f"#{row[0]}")).to_be_focused()


def test_enter_visits_each_box_once_and_ends_at_the_button_that_keeps(walked: Walk, page: Page):
    page.goto(walked.fullest["plate-detail"])
    boxes = page.locator("table.readings input:not([type=checkbox]):visible")
    count = boxes.count()
    boxes.first.focus()
    visited = {page.evaluate("document.activeElement.id")}
    for _ in range(count - 1):
        page.keyboard.press("Enter")
        visited.add(page.evaluate("document.activeElement.id"))
    assert len(visited) == count
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Keep and reckon")).to_be_focused()


def test_enter_in_the_quick_comparison_reckons_what_was_typed(page: Page):
    page.goto("/quick/")
    page.get_by_label("Scale").fill("1:12")
    page.get_by_label("piece 1, waist", exact=True).fill("1 1/2 in")
    page.get_by_label("Scale").press("Enter")
    expect(page.get_by_role("heading", name="Plate against wearer")).to_be_visible()
    expect(page.get_by_label("Scale")).to_have_value("1:12")
    expect(page.get_by_label("piece 1, waist", exact=True)).to_have_value("1 1/2 in")


def test_shift_and_enter_go_back_up(walked: Walk, page: Page):
    page.goto(walked.fullest["measures-change"])
    boxes = page.locator("table.readings tbody tr td:nth-child(2) input")
    boxes.nth(1).focus()
    page.keyboard.press("Shift+Enter")
    expect(boxes.nth(0)).to_be_focused()


def test_the_menu_opens_with_enter_and_closes_with_escape(page: Page):
    page.goto("/")
    menu = page.locator("details.menu summary")
    menu.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Sign out")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("button", name="Sign out")).to_be_hidden()
    expect(menu).to_be_focused()
