"""A plate is sent, calibrated, traced by mouse, by keys alone and by touch; its girth is compared."""

import json
import re

import numpy as np
import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.conftest import DESKTOP
from tests.drawn_plates import SQUARE_MM, DrawnPlate, drawn_plate

# Full-size inches on the drawn page: pieces 10 in and 9 in wide, 16 in and 17 in high.
FRONT = [(5.0, 5.0), (15.0, 5.0), (15.0, 21.0), (5.0, 21.0)]
BACK = [(25.0, 5.0), (34.0, 5.0), (34.0, 22.0), (25.0, 22.0)]
CORNERS = [(2.0, 2.0), (56.0, 2.0), (56.0, 42.0), (2.0, 42.0)]
WIDE_IN, HIGH_IN = 54, 40
ABOUT_A_CLICK = 0.15  # inches: a screen's pixel is some 2.6 of the scan's, at 40 to the inch
PADDING = 8


@pytest.fixture(scope="module")
def drawn(tmp_path_factory) -> tuple[DrawnPlate, str]:
    outlines = tuple([(x * SQUARE_MM, y * SQUARE_MM) for x, y in piece] for piece in (FRONT, BACK))
    plate = drawn_plate(6, size=(2400, 1800), pitch=40, outlines=outlines)
    file = tmp_path_factory.mktemp("plate") / "plate.png"
    plate.picture.save(file)
    return plate, str(file)


def new_plate(page: Page, title: str) -> str:
    """A plate with two pieces, of a garment that the demo's outfit draws on; the path of its page."""
    page.goto("/references/")
    page.get_by_role("link", name="Half-boned stays").first.click()
    page.get_by_role("link", name=re.compile("add a plate", re.IGNORECASE)).first.click()
    page.get_by_label("Title").fill(title)
    page.locator("main form button.primary").click()
    path = re.sub(r"https?://[^/]+", "", page.url).split("#")[0].split("?")[0]
    for name in ("front", "back"):
        page.goto(f"{path}pieces/add/")
        page.get_by_label("Name").fill(name)
        page.locator("main form button.primary").first.click()
    return path


def board_data(page: Page, name: str) -> dict:
    return json.loads(
        page.locator(f"#{name}").inner_text(timeout=5000) or page.locator(f"#{name}").text_content()
    )


def on_screen(page: Page, data: dict, x: float, y: float) -> tuple[float, float]:
    """Where a place of a board lies in the window, while the whole picture is in sight."""
    page.locator("[data-board]").scroll_into_view_if_needed()
    box = page.locator("[data-board]").bounding_box()
    unit = data.get("unit", 1)
    wide, high = data["width"] * unit, data["height"] * unit
    inner = box["width"] - 2 - 2 * PADDING, box["height"] - 2 - 2 * PADDING
    scale = min(inner[0] / wide, inner[1] / high)
    middle = data.get("left", 0) + wide / 2, data.get("top", 0) + high / 2
    return (
        box["x"] + box["width"] / 2 + (x - middle[0]) * scale,
        box["y"] + box["height"] / 2 + (y - middle[1]) * scale,
    )


def press(page: Page, spot: tuple[float, float]) -> None:
    page.mouse.click(*spot)
    page.wait_for_timeout(350)  # two quick presses near each other are a double one


def send_and_calibrate(page: Page, path: str, drawn: DrawnPlate, file: str) -> None:
    page.goto(f"{path}scan/add/")
    page.locator("input[type=file]").set_input_files(file)
    page.get_by_role("button", name="Send it").click()
    page.get_by_role("link", name="By four corners of a rectangle").click(timeout=30_000)
    expect(page.locator("[data-calibrating][data-ready]")).to_be_attached()
    data = board_data(page, "board-data")
    for x, y in drawn.to_px(np.array(CORNERS) * SQUARE_MM):
        press(page, on_screen(page, data, x, y))
    page.get_by_label("Width of the rectangle at full size").fill(f"{WIDE_IN} in")
    page.get_by_label("Its height at full size").fill(f"{HIGH_IN} in")
    page.get_by_role("button", name="Calibrate").click()
    page.get_by_role("link", name="Trace the pieces").click(timeout=30_000)
    expect(page.locator("[data-tracing][data-ready]")).to_be_attached()


def spot_of(page: Page, inches: tuple[float, float]) -> tuple[float, float]:
    """A place of the drawn page in the window: the calibration counts from the first corner."""
    data = board_data(page, "tracing-data")["board"]
    x, y = ((part - corner) * SQUARE_MM for part, corner in zip(inches, CORNERS[0], strict=True))
    return on_screen(page, data, x, y)


def expect_saved(page: Page) -> None:
    expect(page.locator("[data-status]")).to_contain_text(re.compile("Saved at|is saved"), timeout=10_000)


def reckoned(page: Page, name: str) -> float:
    """A length that the server reckoned, in inches."""
    text = page.locator(f"[data-figure='reckoned {name}']").inner_text().removesuffix(" in")
    return sum(int(a) / int(b or 1) for a, _, b in (part.partition("/") for part in text.split()))


def provisional(page: Page, name: str) -> float:
    return float(page.locator(f"[data-figure='provisional {name}']").text_content().removesuffix(" in"))


def choose(page: Page, tool: str) -> None:
    page.locator(f"[name=tool][value={tool}]").check()


def test_two_pieces_are_traced_and_their_girth_reaches_a_comparison(page: Page, drawn):
    path = new_plate(page, "Drawn and clicked on")
    send_and_calibrate(page, path, *drawn)
    for name, corners in (("front", FRONT), ("back", BACK)):
        page.locator("[data-piece]").select_option(label=name)
        choose(page, "trace")
        for corner in corners:
            press(page, spot_of(page, corner))
    choose(page, "level")
    for end in ((3, 12), (37, 12)):
        press(page, spot_of(page, end))
    expect_saved(page)
    expect(page.locator("[data-figure='reckoned at the waist']")).to_be_attached()
    assert reckoned(page, "at the waist") == pytest.approx(9, abs=ABOUT_A_CLICK)
    assert reckoned(page, "all round") == pytest.approx(52, abs=4 * ABOUT_A_CLICK)
    assert provisional(page, "all round") == pytest.approx(reckoned(page, "all round"), abs=1 / 16)

    page.get_by_role("link", name="Traced readings").click()
    for box in page.get_by_role("checkbox").all():
        box.check()
    page.get_by_role("button", name="Let the ticked ones stand").click()
    # 2 × (10 + 9) in round the body, of which the table says the sum.
    expect(page.locator("main")).to_contain_text(re.compile(r"3[78]( \d+/\d+)? in|38 in"))
    compare_with(page, "Drawn and clicked on")
    expect(page.locator("main")).to_contain_text(re.compile(r"3[78]( \d+/\d+)? in|38 in"))


def compare_with(page: Page, title: str) -> None:
    """Let a garment of the demo's outfit be drawn on this plate, and compare it."""
    page.goto("/outfits/")
    page.get_by_role("link", name="The egg-seller").first.click()
    page.get_by_role("link", name="Stays", exact=True).first.click()
    page.get_by_role("link", name="Change", exact=True).first.click()
    plate = page.locator("select[name=plate]")
    option = plate.locator("option").filter(has_text=title).first
    plate.select_option(value=option.get_attribute("value"))
    page.locator("main form button.primary").first.click()
    page.get_by_role("button", name=re.compile("compare", re.IGNORECASE)).first.click()


def test_a_piece_is_traced_changed_and_undone_with_keys_alone(page: Page, drawn):
    path = new_plate(page, "Drawn and typed")
    send_and_calibrate(page, path, *drawn)
    board = page.locator("[data-board]")
    board.focus()
    for keys in (
        ["Shift+ArrowLeft"] * 3,
        ["Shift+ArrowRight"] * 5,
        ["Shift+ArrowDown"] * 2,
        ["Shift+ArrowLeft"] * 5,
    ):
        for key in keys:
            page.keyboard.press(key)
        page.keyboard.press("Enter")
    expect(page.locator("[data-points] tr")).to_have_count(4)
    expect_saved(page)
    data = board_data(page, "tracing-data")["board"]
    box = board.bounding_box()
    mm_per_screen_px = max(
        data["width"] * data["unit"] / (box["width"] - 2 - 2 * PADDING),
        data["height"] * data["unit"] / (box["height"] - 2 - 2 * PADDING),
    )
    around_in = 2 * (200 + 80) * mm_per_screen_px / SQUARE_MM
    assert reckoned(page, "all round") == pytest.approx(around_in, rel=0.01)

    page.keyboard.press("n")
    page.keyboard.press("s")
    page.keyboard.press("i")
    expect(page.locator("[data-points] tr")).to_have_count(5)
    expect_saved(page)
    page.reload()
    expect(page.locator("[data-points] tr")).to_have_count(5)
    board.focus()
    page.keyboard.press("Control+z")
    expect(page.locator("[data-points] tr")).to_have_count(4)
    page.keyboard.press("Control+y")
    expect(page.locator("[data-points] tr")).to_have_count(5)
    expect_saved(page)


def test_a_piece_is_traced_by_touch(browser: Browser, keeper: BrowserContext, base: str, drawn):
    touching = browser.new_context(
        base_url=base, viewport=DESKTOP, has_touch=True, storage_state=keeper.storage_state()
    )
    page, said = touching.new_page(), []
    page.on("console", lambda message: said.append(message.text))
    path = new_plate(page, "Drawn and touched")
    send_and_calibrate(page, path, *drawn)
    for corner in FRONT:
        page.touchscreen.tap(*spot_of(page, corner))
        page.wait_for_timeout(400)
    expect(page.locator("[data-points] tr")).to_have_count(4)
    expect_saved(page)
    assert reckoned(page, "all round") == pytest.approx(52, abs=4 * ABOUT_A_CLICK)
    touching.close()
    assert said == []
