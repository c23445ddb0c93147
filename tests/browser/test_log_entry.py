"""What a maker does when the needle is laid down: a line, a photograph and the hours, from a telephone."""

import re
from time import monotonic

import pytest
from playwright.sync_api import Page, expect

from tests.browser.addresses import Walk
from tests.makers.fittings import jpeg

TELEPHONE = {"width": 390, "height": 844}
A_MINUTE = 60


@pytest.fixture
def telephone(page: Page) -> Page:
    page.set_viewport_size(TELEPHONE)
    return page


def test_an_entry_with_a_photograph_takes_less_than_a_minute(walked: Walk, telephone: Page):
    telephone.goto(walked.fullest["outfit-detail"])
    began = monotonic()
    telephone.get_by_role("link", name="Add to the log", exact=True).click()
    # Typed as a thumb types: a fifth of a second a letter.
    telephone.get_by_label("What was done").press_sequentially(
        "Eyelets, left side, twelve of them.", delay=200
    )
    telephone.get_by_label("Hours").fill("1.5")
    telephone.get_by_label("Photographs").set_input_files(
        {"name": "eyelets.jpg", "mimeType": "image/jpeg", "buffer": jpeg()}
    )
    telephone.get_by_role("button", name="Keep it").click()
    entry = telephone.get_by_role("article").filter(has_text="Eyelets, left side, twelve of them.")
    expect(entry.first).to_contain_text("1.5 h")
    expect(entry.first.get_by_role("img")).to_be_visible()
    assert monotonic() - began < A_MINUTE


def test_an_address_for_the_calendar_is_shown_once(telephone: Page):
    telephone.goto("/calendar/")
    telephone.get_by_role("button", name="Make an address").click()
    expect(telephone.get_by_label("Your calendar address")).to_have_value(
        re.compile(r"/calendar/[\w-]{43}\.ics$")
    )
    telephone.goto("/calendar/")
    expect(telephone.get_by_label("Your calendar address")).to_have_count(0)
    telephone.get_by_role("button", name="Withdraw the address").click()
    expect(telephone.get_by_role("status")).to_contain_text("leads nowhere")
