"""The demo's day bodice from its comparison to its pattern: altered, walked, printed, and laid on cloth."""

import io
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import BrowserContext, Locator, Page, expect
from pypdf import PdfReader

pytestmark = pytest.mark.browser
PX_A_MM = 10
DOTS_AN_INCH = 254


@pytest.fixture
def page(keeper: BrowserContext) -> Page:
    page = keeper.new_page()
    yield page
    page.close()


def open_work(page: Page, name: str) -> None:
    page.get_by_role("link", name="Pattern work", exact=True).first.click()
    page.get_by_role("link", name=name, exact=True).click()


def rows_of(table: Locator) -> list[list[str]]:
    # `all` takes what is there, and of the page that a press leads to nothing, or half, may be there.
    expect(table.locator("tbody tr").first).to_be_visible()
    table.page.wait_for_load_state()
    return [row.locator("th, td").all_inner_texts() for row in table.locator("tbody tr").all()]


def cover_of(pdf: bytes, folder: Path) -> np.ndarray:
    """The first page of a PDF as grey pixels, ten to the millimetre."""
    (folder / "sheets.pdf").write_bytes(pdf)
    command = [
        shutil.which("pdftoppm"),
        "-r",
        str(DOTS_AN_INCH),
        "-l",
        "1",
        "-gray",
        "-png",
        "sheets.pdf",
        "page",
    ]
    subprocess.run(command, cwd=folder, check=True, timeout=60)
    (name,) = folder.glob("page*.png")
    return np.asarray(Image.open(name).convert("L"))


def square_px(picture: np.ndarray) -> tuple[int, int]:
    """Width and height of the first square of a cover: the lines that run unbroken for nine tenths of it."""
    dark = picture < 128
    reach = 90 * PX_A_MM
    across = [row for row in range(dark.shape[0]) if longest_run(dark[row]) >= reach]
    left = np.flatnonzero(dark[across[0] + 50])[0]
    upright = [
        column for column in range(left, left + 110 * PX_A_MM) if longest_run(dark[:, column]) >= reach
    ]
    foot = next(row for row in across if row > across[0] + reach)
    right = next(column for column in upright if column > upright[0] + reach)
    return right - upright[0], foot - across[0]


def longest_run(line: np.ndarray) -> int:
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
    return int(max(edges[1::2] - edges[::2], default=0))


def test_a_bodice_is_carried_from_its_comparison_to_the_cloth(page, tmp_path):
    page.goto("/outfits/")
    page.get_by_role("link", name="Lecture on dressmaking by measure").first.click()
    page.get_by_role("link", name="Day bodice", exact=True).first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Day bodice")
    garment = page.url
    page.get_by_role("button", name="Compare with the wearer").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Day bodice: plate against wearer")
    page.goto(garment)
    grade(page)
    page.goto(garment)
    alter(page)
    page.goto(garment)
    walk_seams(page)
    print_sheets(page, tmp_path)
    page.get_by_role("link", name="Pattern work").click()
    page.get_by_role("link", name="Lay the pieces on cloth").click()
    page.get_by_label("Seconds to look").fill("1")
    page.get_by_role("button", name="Lay them").click()
    expect(page.get_by_role("img").first).to_be_visible(timeout=60_000)
    page.get_by_role("button", name="Write what to buy").click(timeout=60_000)
    expect(page.get_by_text("nothing stood there before")).to_be_visible()
    expect(page.get_by_role("row", name="Outer cloth for Day bodice")).to_contain_text("yd")


def grade(page: Page) -> None:
    """Keep the grade, a sheet of figures."""
    open_work(page, "Grade to the wearer")
    for _, _, _, wanted, graded, off in rows_of(page.get_by_role("region", name="Girths, with what lies")):
        assert (off, wanted) == ("0 in", graded)
    assert rows_of(page.get_by_role("region", name="Edges that are sewn together"))
    page.get_by_role("button", name="Keep these figures").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Graded to the wearer")


def alter(page: Page) -> None:
    """Begin the working pattern from the garment, and alter it to the wearer: its second version."""
    page.get_by_role("link", name="Working pattern", exact=True).first.click()
    page.get_by_role("button", name="Begin the working pattern").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Working pattern")
    page.get_by_role("link", name="Alter to the wearer").first.click()
    expect(page.get_by_text("What it changed")).to_be_visible()
    page.get_by_role("button", name="Take this step").click()
    expect(page.get_by_text("version 2").first).to_be_visible()


def walk_seams(page: Page) -> None:
    open_work(page, "Seams, edge to edge")
    assert rows_of(page.get_by_role("region", name="Each seam at full size"))
    parts = [row[0] for row in rows_of(page.get_by_role("region", name="Stretch by stretch"))]
    assert [name.split(", ")[1] for name in parts if "upper head" in name] == ["front", "back", "under"]
    page.get_by_role("button", name="Keep this with the garment").click()
    expect(page.get_by_role("img", name="Seams straightened")).to_be_visible()


def print_sheets(page: Page, folder: Path) -> None:
    open_work(page, "Pattern sheets")
    expect(page.get_by_role("link", name="Working pattern, version 2").first).to_have_attribute(
        "aria-current", "page"
    )
    page.get_by_role("button", name="Show the pages").click()
    said = int(page.get_by_role("heading", name="pages of").inner_text().split()[0])
    with page.expect_download() as sent:
        page.get_by_role("button", name="Make the PDF").click()
    pdf = sent.value.path().read_bytes()
    reader = PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == said + 1
    assert "version 2" in reader.pages[0].extract_text()
    assert square_px(cover_of(pdf, folder)) == pytest.approx((100 * PX_A_MM, 100 * PX_A_MM), abs=3)
    page.get_by_role("button", name="Keep this plan with the garment").click()
    expect(page.get_by_role("img", name="Page plan")).to_be_visible()
