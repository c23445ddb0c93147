"""Every page that a link leads to: what axe finds, what a narrow screen does, what the console says.

axe's rules: WCAG 2.2 A and AA (https://www.w3.org/TR/WCAG22/). It finds about half of what hinders
people; the rest is walked in test_keyboard.py and test_without_javascript.py.
"""

import re
from dataclasses import dataclass

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page

from tests.browser.addresses import NOT_LINKED, Walk, address_names
from tests.browser.conftest import DESKTOP

pytestmark = pytest.mark.browser

NARROW = {"width": 320, "height": 640}
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PAST_THE_EDGE = """() => document.documentElement.scrollWidth <= 320 ? [] :
    [...document.querySelectorAll("main *, header *")]
        .filter((part) => part.getBoundingClientRect().right > 320 && !part.closest(".scroll, .unseen"))
        .map((part) => part.outerHTML.slice(0, 120))"""


@dataclass
class Visit:
    """What one look at a page found."""

    by_axe: list[str]
    past_the_edge: list[str]
    said: list[str]


@pytest.fixture(scope="module")
def visits(walked: Walk, keeper: BrowserContext) -> dict[str, Visit]:
    """Each page opened once, on a screen of 320 pixels; then by day and by night on a wide one."""
    page, said = keeper.new_page(), []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    found = {}
    for name, path in walked.pages.items():
        said.clear()
        page.emulate_media(color_scheme="light")
        page.set_viewport_size(NARROW)
        page.goto(path)
        past_the_edge = page.evaluate(PAST_THE_EDGE)
        page.set_viewport_size(DESKTOP)
        page.evaluate(Axe().axe_script)
        by_axe = faults(page, WCAG)
        page.emulate_media(color_scheme="dark")
        by_axe += faults(page, ["color-contrast"])
        found[name] = Visit(by_axe, past_the_edge, list(said))
    page.close()
    return found


def faults(page: Page, rules: list[str]) -> list[str]:
    # None of these rules asks for files that a page loads: `preload` would fetch its style sheets again.
    said = "(rules) => axe.run({runOnly: rules, resultTypes: ['violations'], preload: false})"
    found = page.evaluate(said, rules)
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


def test_no_page_has_a_fault_that_axe_knows_by_day_or_by_night(visits: dict[str, Visit]):
    assert {name: visit.by_axe for name, visit in visits.items() if visit.by_axe} == {}


def test_no_page_is_wider_than_a_screen_of_320_pixels(visits: dict[str, Visit]):
    assert {name: visit.past_the_edge for name, visit in visits.items() if visit.past_the_edge} == {}


def test_no_page_says_anything_in_the_console(visits: dict[str, Visit]):
    """The policy, a script, a lost file."""
    assert {name: visit.said for name, visit in visits.items() if visit.said} == {}
