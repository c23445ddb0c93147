"""A whole fitting: planned, held on a telephone that goes offline, closed, printed in the next dossier."""

import io
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect
from pypdf import PdfReader

from tests.makers.fittings import jpeg

TELEPHONE = {"width": 390, "height": 844}


@pytest.fixture
def telephone(keeper: BrowserContext) -> Iterator[Page]:
    """A narrow page whose console may complain: without a connection it says so there."""
    page = keeper.new_page()
    page.set_viewport_size(TELEPHONE)
    yield page
    keeper.set_offline(False)
    page.close()


def tap(page: Page, garment: str, place: str, what: str) -> None:
    page.get_by_role("radio", name=garment, exact=True).check()
    page.get_by_role("radio", name=place, exact=True).check()
    page.get_by_role("button", name=what, exact=True).click()


def plan(page: Page) -> str:
    """Plan a fitting of the stays; return its address."""
    page.goto("/outfits/1/fitting/plan/")
    expect(page.get_by_label("Stays")).to_be_checked()
    page.get_by_label("Where").fill("By the stove")
    page.get_by_role("button", name="Plan it").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Fitting, "))
    checks = page.get_by_role("listitem").filter(has_text="Is it right now?")
    expect(checks.filter(has_text="side front seam: take in 1/8 in")).to_have_count(1)
    return page.url


def hold(page: Page, context: BrowserContext) -> None:
    seen, waiting = page.locator("[data-kept] > li"), page.locator("[data-waiting]")
    tap(page, "Stays", "centre back", "take in 1/4 in")
    expect(seen).to_have_text([re.compile("centre back: take in 1/4 in")])
    context.set_offline(True)
    page.get_by_text("One side only, a note").click()
    page.get_by_label("Photographs").set_input_files(
        {"name": "back.jpg", "mimeType": "image/jpeg", "buffer": jpeg()}
    )
    tap(page, "Stays", "neck", "Gapes")
    expect(waiting).to_contain_text("1 waiting to be sent. No connection")
    expect(seen).to_have_count(1)
    context.set_offline(False)
    expect(seen).to_have_count(2)
    expect(waiting).to_be_hidden()
    page.reload()
    expect(seen).to_have_count(2)
    expect(seen.nth(1).get_by_role("img")).to_be_visible()


def close(page: Page) -> None:
    page.get_by_role("link", name="Done: close the fitting").click()
    page.get_by_role("link", name=re.compile("Make an alteration of Stays, centre back")).click()
    page.get_by_label("Pattern piece").select_option("back")
    expect(page.get_by_label("Amount for each edge")).to_have_value("1/8 in")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_label("or drop it, because").fill("She had moved")
    page.get_by_role("button", name=re.compile("^Drop")).click()
    page.get_by_role("button", name="Close the fitting").click()
    expect(page.get_by_text("The fitting is closed.")).to_be_visible()


def dossier(page: Page) -> str:
    page.goto("/outfits/1/dossiers/add/")
    page.get_by_role("button", name="Make the PDF").click()
    download = page.get_by_role("link", name="Download the PDF")
    expect(download).to_be_visible(timeout=60_000)
    pdf = page.request.get(download.get_attribute("href")).body()
    return "\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(pdf)).pages)


def test_what_was_seen_at_a_fitting_is_an_alteration_in_the_next_dossier(
    telephone: Page, keeper: BrowserContext
):
    address = plan(telephone)
    telephone.goto(f"{address}hold/")
    hold(telephone, keeper)
    close(telephone)
    telephone.goto("/garments/2/")
    expect(telephone.get_by_role("region", name="Open alterations of Stays")).to_contain_text("centre back")
    printed = " ".join(dossier(telephone).split())
    assert "back, centre back: take in, 2 edges" in printed


def test_a_photograph_that_cannot_be_read_does_not_take_the_observation_with_it(telephone: Page):
    telephone.goto("/fittings/3/hold/")
    telephone.get_by_text("One side only, a note").click()
    telephone.get_by_label("Photographs").set_input_files(
        {"name": "broken.jpg", "mimeType": "image/jpeg", "buffer": b"not a picture"}
    )
    tap(telephone, "Stays", "elbow", "Drags")
    refused = telephone.locator("[data-refused]")
    expect(refused).to_contain_text("Not kept: Stays, elbow: Drags")
    refused.get_by_role("button", name="Send without photographs").click()
    expect(telephone.locator("[data-kept]")).to_contain_text("elbow: drags")
    expect(refused).to_be_empty()
