"""The demo's day bodice from its comparison to its pattern: grade, seams, sheets, and the lay on cloth."""

import io

import pytest
from playwright.sync_api import BrowserContext, Page, expect
from pypdf import PdfReader

pytestmark = pytest.mark.browser


@pytest.fixture
def page(keeper: BrowserContext) -> Page:
    page = keeper.new_page()
    yield page
    page.close()


def open_work(page: Page, name: str) -> None:
    page.get_by_role("link", name="Pattern work", exact=True).first.click()
    page.get_by_role("link", name=name, exact=True).click()


def test_a_bodice_is_carried_from_its_comparison_to_the_cloth(page):
    page.goto("/outfits/")
    page.get_by_role("link", name="Lecture on dressmaking by measure").first.click()
    page.get_by_role("link", name="Day bodice", exact=True).first.click()
    garment = page.url
    page.get_by_role("button", name="Compare with the wearer").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Day bodice: plate against wearer")
    page.goto(garment)
    open_work(page, "Grade to the wearer")
    girths = page.get_by_role("region", name="Girths, with what lies beside the drawn cloth")
    for row in girths.locator("tbody tr").all():
        assert row.locator("td").last.inner_text() == "0 in"
        assert row.locator("td").nth(2).inner_text() == row.locator("td").nth(3).inner_text()
    page.get_by_role("button", name="Keep these figures").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Graded to the wearer")
    open_work(page, "Seams, edge to edge")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Seams")
    open_work(page, "Pattern sheets")
    assert page.get_by_label("Pieces", exact=True).input_value() == "graded"
    page.get_by_role("button", name="Show the pages").click()
    said = page.get_by_role("heading", name="pages of").inner_text()
    with page.expect_download() as sent:
        page.get_by_role("button", name="Make the PDF").click()
    reader = PdfReader(io.BytesIO(sent.value.path().read_bytes()))
    assert len(reader.pages) == int(said.split()[0]) + 1
    assert "graded to measures of" in reader.pages[0].extract_text()
    page.get_by_role("link", name="Pattern work").click()
    page.get_by_role("link", name="Lay the pieces on cloth").click()
    page.get_by_label("Seconds to look").fill("1")
    page.get_by_role("button", name="Lay them").click()
    expect(page.get_by_role("img").first).to_be_visible(timeout=60_000)
