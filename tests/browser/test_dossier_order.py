"""Parts of a dossier are put in another order with the keyboard alone, and printed so."""

from playwright.sync_api import Page, expect


def test_a_part_is_moved_with_the_keyboard_and_is_printed_where_it_was_put(page: Page):
    page.goto("/outfits/2/dossiers/add/")
    parts = page.locator("[data-parts] > li")
    up, down = (page.get_by_role("button", name=f"{way}: A sheet for each garment") for way in ("Up", "Down"))
    expect(parts.nth(1)).to_contain_text("A sheet for each garment")
    up.focus()
    page.keyboard.press("Enter")
    expect(parts.first).to_contain_text("A sheet for each garment")
    expect(page.get_by_label("Place of: A sheet for each garment")).to_have_value("1")
    expect(page.get_by_label("Place of: Two pages for the outfit")).to_have_value("2")
    # At the head there is no further up: the focus is not lost.
    expect(up).to_be_disabled()
    expect(down).to_be_focused()
    page.get_by_role("button", name="Make the PDF").click()
    expect(page.get_by_role("link", name="Download the PDF")).to_be_visible(timeout=60_000)
    expect(page.get_by_role("main").locator("section ol li")).to_have_text(
        ["A sheet for each garment", "Two pages for the outfit"]
    )
    page.get_by_role("link", name="Print another").click()
    expect(parts.first).to_contain_text("A sheet for each garment")
