"""Every page that a link leads to: what axe finds, what a narrow screen does, what the console says.

axe's rules: WCAG 2.2 A and AA (https://www.w3.org/TR/WCAG22/). It finds about half of what hinders
people; the rest is walked in test_keyboard.py and test_without_javascript.py.
"""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.addresses import NOT_LINKED, NOT_PAGES, Walk, address_names

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PAST_THE_EDGE = """() => document.documentElement.scrollWidth <= 320 ? [] :
    [...document.querySelectorAll("main *, header *")]
        .filter((part) => part.getBoundingClientRect().right > 320 && !part.closest(".scroll, .unseen"))
        .map((part) => part.outerHTML.slice(0, 120))"""

pages = pytest.mark.parametrize("name", sorted(address_names() - NOT_PAGES - NOT_LINKED))


def faults(page: Page, rules: list[str]) -> list[str]:
    found = page.evaluate("(rules) => axe.run({runOnly: rules, resultTypes: ['violations']})", rules)
    return [
        f"{rule['id']}: {node['html'][:160]} {node['failureSummary']}"
        for rule in found["violations"]
        for node in rule["nodes"]
    ]


def test_every_link_is_answered(walked: Walk):
    assert walked.broken == []


def test_every_address_is_reached_by_links_or_forms_from_home(walked: Walk):
    assert address_names() - walked.fullest.keys() - walked.posts == NOT_LINKED


def test_every_page_has_one_heading_and_a_title_of_its_own(walked: Walk):
    titles = {}
    for name, text in walked.text.items():
        if name not in NOT_PAGES:
            assert re.findall(r"<h1>\s*\S", text), f"{name} has no heading"
            assert text.count("<h1>") == 1, f"{name} has more than one heading"
            titles[name] = re.search(r"<title>(.*) · Plate &amp; Toile</title>", text, re.S)[1].strip()
    assert "" not in titles.values(), titles


@pages
def test_a_page_has_no_fault_that_axe_knows_by_day_or_by_night(name: str, walked: Walk, page: Page):
    page.goto(walked.fullest[name])
    page.evaluate(Axe().axe_script)
    assert faults(page, WCAG) == []
    page.emulate_media(color_scheme="dark")
    assert faults(page, ["color-contrast"]) == []


@pages
def test_a_page_fits_a_screen_of_320_pixels(name: str, walked: Walk, page: Page):
    page.set_viewport_size({"width": 320, "height": 640})
    page.goto(walked.fullest[name])
    assert page.evaluate(PAST_THE_EDGE) == []
