"""Outlines go out of the program as a file and come into another plate; the drawings are read on a phone."""

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESKTOP
from tests.browser.test_every_page import WCAG, faults
from tests.browser.tracing_page import new_plate

PHONE = {"width": 320, "height": 700}
LEAST_PX = 12  # letters smaller than this are not read on a phone; common practice, no source


def traced_plate(page: Page) -> None:
    page.goto("/references/")
    page.get_by_role("link", name="Half-boned stays").first.click()
    page.get_by_role("link", name="Half-boned stays", exact=True).first.click()


def exported(page: Page, folder: Path) -> Path:
    traced_plate(page)
    with page.expect_download() as coming:
        page.get_by_role("link", name="SVG at full size").click()
    coming.value.save_as(folder / "stays.svg")
    return folder / "stays.svg"


def test_an_exported_drawing_comes_into_a_plate_without_a_scan_and_gives_readings(page: Page, tmp_path: Path):
    file = exported(page, tmp_path)
    path = new_plate(page, "Brought in from a drawing")
    page.goto(path)
    page.get_by_role("link", name="Scan and tracing").click()
    page.get_by_role("link", name="Bring in an SVG").click()
    page.get_by_label("SVG drawing").set_input_files(file)
    page.get_by_role("button", name="Show what is in it").click()
    expect(page.get_by_role("heading", name="Keep these outlines?")).to_be_visible()
    page.evaluate(Axe().axe_script)
    assert faults(page, WCAG) == []
    page.get_by_label("Outline 5 is to be").select_option(label="left out")
    page.get_by_role("button", name="Keep what is chosen").click()
    expect(page.locator("main")).to_contain_text("its own drawing, in millimetres")
    page.get_by_role("link", name="Traced readings").click()
    # The front’s waist, 2 3/32 in at full size, is 0.262 in on a page of 1:8.
    expect(page.get_by_role("row", name=re.compile("side front .*waist"))).to_be_visible()
    page.goto(f"{path}trace/")
    expect(page.locator("[data-board] canvas").first).to_be_visible()
    expect(page.locator("[data-points] tr").first).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_words_of_a_drawing_are_read_on_a_phone(page: Page, scheme):
    page.set_viewport_size(PHONE)
    page.emulate_media(color_scheme=scheme)
    traced_plate(page)
    page.wait_for_load_state()
    words = page.locator(".outlines-words text")
    assert words.count() >= 9  # five pieces, three levels, the bar
    sheet = page.locator(".outlines-sheet").bounding_box()
    for word in words.all():
        box = word.bounding_box()
        assert box["height"] >= LEAST_PX
        assert sheet["x"] - 1 <= box["x"]
        assert box["x"] + box["width"] <= sheet["x"] + sheet["width"] + 1
    page.set_viewport_size(DESKTOP)
