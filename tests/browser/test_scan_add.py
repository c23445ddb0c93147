"""A scan on its way: how far it is sent, what is wrong with it; then it is made ready before one's eyes."""

import re
from pathlib import Path

from playwright.sync_api import Page, Route, expect

from tests.browser.tracing_page import Sent, new_plate


def test_a_file_that_is_no_picture_is_named_and_a_scan_shows_how_far_it_is(
    page: Page, sent: Sent, tmp_path: Path
):
    path = new_plate(page, "Drawn and sent")
    page.goto(f"{path}scan/add/")
    wrong = tmp_path / "plate.jpg"
    wrong.write_bytes(b"not a picture")
    page.locator("input[type=file]").set_input_files(wrong)
    page.get_by_role("button", name="Send it").click()
    expect(page.locator("[data-said]")).to_contain_text("not a whole JPEG")
    # The form stands as it was: the box ticked, another file in its place.
    page.get_by_label("taken with a camera").check()
    page.locator("input[type=file]").set_input_files(sent.file)

    def held_back(route: Route) -> None:
        expect(page.get_by_role("progressbar", name="Sent of the file")).to_be_visible()
        expect(page.get_by_role("button", name="Send it")).to_be_disabled()
        route.continue_()

    page.route("**/scan/add/", held_back)
    page.get_by_role("button", name="Send it").click()
    expect(page).to_have_url(re.compile("/scan/$"))
    page.unroute("**/scan/add/")
    expect(page.get_by_role("link", name="By the grid that was found")).to_be_visible(timeout=30_000)
