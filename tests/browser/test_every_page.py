"""Every page that a link leads to: what axe finds, what a narrow screen does, what the console says.

axe's rules: WCAG 2.2 A and AA (https://www.w3.org/TR/WCAG22/). It finds about half of what hinders
people; the rest is walked in test_keyboard.py and test_without_javascript.py.
"""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.addresses import NOT_LINKED, Walk, address_names

pytestmark = pytest.mark.browser

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PAST_THE_EDGE = """() => document.documentElement.scrollWidth <= 320 ? [] :
    [...document.querySelectorAll("main *, header *")]
        .filter((part) => part.getBoundingClientRect().right > 320 && !part.closest(".scroll, .unseen"))
        .map((part) => part.outerHTML.slice(0, 120))"""


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
    for name in walked.pages:
        text = walked.text[name]
        assert len(re.findall(r"<h1>\s*\S", text)) == text.count("<h1") == 1, name
        assert re.search(r"<title>\s*\S.* · Plate &amp; Toile</title>", text, re.S), name


def test_no_page_has_a_fault_that_axe_knows_by_day_or_by_night(walked: Walk, page: Page):
    found = {}
    for name, path in walked.pages.items():
        page.emulate_media(color_scheme="light")
        page.goto(path)
        page.evaluate(Axe().axe_script)
        by_day = faults(page, WCAG)
        page.emulate_media(color_scheme="dark")
        found[name] = by_day + faults(page, ["color-contrast"])
    assert {name: named for name, named in found.items() if named} == {}


def test_no_page_is_wider_than_a_screen_of_320_pixels(walked: Walk, page: Page):
    page.set_viewport_size({"width": 320, "height": 640})
    wide = {}
    for name, path in walked.pages.items():
        page.goto(path)
        wide[name] = page.evaluate(PAST_THE_EDGE)
    assert {name: parts for name, parts in wide.items() if parts} == {}
