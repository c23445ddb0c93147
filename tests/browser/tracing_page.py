"""A plate with two pieces drawn, sent, calibrated and opened for tracing; what a hand does on its page."""

import json
import re
from dataclasses import dataclass

import numpy as np
from playwright.sync_api import Locator, Page, expect

from tests.makers.drawn_plates import SQUARE_MM, DrawnPlate

# Full-size inches on the drawn page: pieces 10 in and 9 in wide, 16 in and 17 in high.
FRONT = [(5.0, 5.0), (15.0, 5.0), (15.0, 21.0), (5.0, 21.0)]
BACK = [(25.0, 5.0), (34.0, 5.0), (34.0, 22.0), (25.0, 22.0)]
CORNERS = [(2.0, 2.0), (56.0, 2.0), (56.0, 42.0), (2.0, 42.0)]
WIDE_IN, HIGH_IN = 54, 40
ABOUT_A_CLICK = 0.15  # inches: a screen's pixel is some 2.6 of the scan's, at 40 to the inch
PADDING = 8


@dataclass(frozen=True, slots=True)
class Sent:
    """What is sent: the drawing, and its file."""

    drawn: DrawnPlate
    file: str


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
    return json.loads(page.locator(f"#{name}").text_content())


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
    page.wait_for_timeout(60)


def send_and_calibrate(page: Page, path: str, sent: Sent) -> None:
    page.goto(f"{path}scan/add/")
    page.locator("input[type=file]").set_input_files(sent.file)
    page.get_by_role("button", name="Send it").click()
    page.get_by_role("link", name="By four corners of a rectangle").click(timeout=30_000)
    expect(page.locator("[data-calibrating][data-ready]")).to_be_attached()
    data = board_data(page, "board-data")
    for x, y in sent.drawn.to_px(np.array(CORNERS) * SQUARE_MM):
        page.mouse.click(*on_screen(page, data, x, y))
        page.wait_for_timeout(350)  # two quick presses are one double press there
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


def trace(page: Page, corners: list[tuple[float, float]]) -> None:
    """Every corner of the chosen piece, pressed with the mouse."""
    choose(page, "trace")
    for corner in corners:
        press(page, spot_of(page, corner))


def choose(page: Page, tool: str) -> None:
    page.locator(f"[name=tool][value='{tool}']").check()


def points(page: Page) -> Locator:
    return page.locator("[data-points] tr")


def expect_saved(page: Page) -> None:
    expect(page.locator("[data-status]")).to_contain_text(re.compile("Saved at|is saved"))


def reckoned(page: Page, name: str) -> float:
    """A length that the server reckoned, in inches, unrounded."""
    return _inches(page, f"reckoned {name}")


def provisional(page: Page, name: str) -> float:
    return _inches(page, f"provisional {name}")


def _inches(page: Page, figure: str) -> float:
    cell = page.locator(f"[data-figure='{figure}'][data-mm]")
    return float(cell.get_attribute("data-mm")) / SQUARE_MM
