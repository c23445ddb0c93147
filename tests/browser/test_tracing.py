"""A plate is sent, calibrated, traced by mouse, by keys alone, by touch and by pen; its girth is compared."""

import re

import pytest
from playwright.sync_api import Browser, BrowserContext, CDPSession, Page, expect

from tests.browser.conftest import DESKTOP
from tests.browser.tracing_page import (
    ABOUT_A_CLICK,
    BACK,
    FRONT,
    PADDING,
    Sent,
    board_data,
    choose,
    expect_saved,
    new_plate,
    points,
    press,
    provisional,
    reckoned,
    send_and_calibrate,
    spot_of,
    trace,
)
from tests.makers.drawn_plates import SQUARE_MM


def test_two_pieces_are_traced_and_their_girth_reaches_a_comparison(page: Page, sent: Sent):
    path = new_plate(page, "Drawn and clicked on")
    send_and_calibrate(page, path, sent)
    for name, corners in (("front", FRONT), ("back", BACK)):
        page.locator("[data-piece]").select_option(label=name)
        trace(page, corners)
    choose(page, "level")
    for end in ((3, 12), (37, 12)):
        press(page, spot_of(page, end))
    expect_saved(page)
    expect(page.locator("[data-figure='reckoned at the waist'][data-mm]")).to_be_attached()
    assert reckoned(page, "at the waist") == pytest.approx(9, abs=ABOUT_A_CLICK)
    assert reckoned(page, "all round") == pytest.approx(52, abs=4 * ABOUT_A_CLICK)
    for name in ("all round", "at the waist"):
        assert provisional(page, name) == pytest.approx(reckoned(page, name), abs=0.001)

    page.get_by_role("link", name="Traced readings").click()
    expect(page.get_by_role("button", name="Let the ticked ones stand")).to_be_visible()
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


def test_a_piece_is_traced_changed_and_undone_with_keys_alone(page: Page, sent: Sent):
    path = new_plate(page, "Drawn and typed")
    send_and_calibrate(page, path, sent)
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
    expect(points(page)).to_have_count(4)
    expect_saved(page)
    data = board_data(page, "tracing-data")["board"]
    box = board.bounding_box()
    mm_per_screen_px = max(
        data["width"] * data["unit"] / (box["width"] - 2 - 2 * PADDING),
        data["height"] * data["unit"] / (box["height"] - 2 - 2 * PADDING),
    )
    around_in = 2 * (200 + 80) * mm_per_screen_px / SQUARE_MM
    assert reckoned(page, "all round") == pytest.approx(around_in, rel=0.01)

    for key in "nsi":
        page.keyboard.press(key)
    expect(points(page)).to_have_count(5)
    expect_saved(page)
    page.reload()
    expect(points(page)).to_have_count(5)
    board.focus()
    page.keyboard.press("Control+z")
    expect(points(page)).to_have_count(4)
    page.keyboard.press("Control+y")
    expect(points(page)).to_have_count(5)
    expect_saved(page)


@pytest.fixture
def touching(browser: Browser, keeper: BrowserContext, base: str):
    """A page on a screen that is touched. Whatever its console says is a fault."""
    context = browser.new_context(
        base_url=base, viewport=DESKTOP, has_touch=True, storage_state=keeper.storage_state()
    )
    page, said = context.new_page(), []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page
    context.close()
    assert said == []


def test_a_piece_is_traced_by_touch_and_two_fingers_move_the_picture_alone(touching: Page, sent: Sent):
    path = new_plate(touching, "Drawn and touched")
    send_and_calibrate(touching, path, sent)
    for corner in FRONT:
        touching.touchscreen.tap(*spot_of(touching, corner))
        touching.wait_for_timeout(100)
    expect(points(touching)).to_have_count(4)
    expect_saved(touching)
    around_in = reckoned(touching, "all round")
    assert around_in == pytest.approx(52, abs=4 * ABOUT_A_CLICK)

    # One finger lands on a point; the second says that the picture is meant.
    board = touching.locator("[data-board]")
    before = board.screenshot()
    pinch(touching.context.new_cdp_session(touching), spot_of(touching, FRONT[0]))
    touching.wait_for_timeout(400)
    assert board.screenshot() != before
    expect(points(touching)).to_have_count(4)
    assert provisional(touching, "all round") == pytest.approx(around_in, abs=0.001)


def pinch(hands: CDPSession, start: tuple[float, float]) -> None:
    x, y = start

    def touch(kind: str, *fingers: tuple[float, float]) -> None:
        touches = [{"x": at[0], "y": at[1], "id": finger} for finger, at in enumerate(fingers)]
        hands.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": touches})

    touch("touchStart", (x, y))
    touch("touchStart", (x, y), (x + 120, y + 60))
    for step in range(1, 8):
        touch("touchMove", (x - 6 * step, y - 3 * step), (x + 120 + 8 * step, y + 60 + 4 * step))
    touch("touchEnd")


def test_a_piece_is_traced_and_moved_by_pen(page: Page, sent: Sent):
    path = new_plate(page, "Drawn with a pen")
    send_and_calibrate(page, path, sent)
    page.evaluate(
        "addEventListener('pointerdown', (e) => (document.body.dataset.hand = e.pointerType), true)"
    )
    pen = page.context.new_cdp_session(page)
    for corner in FRONT:
        stroke(pen, spot_of(page, corner))
        page.wait_for_timeout(60)
    assert page.locator("body").get_attribute("data-hand") == "pen"
    expect(points(page)).to_have_count(4)
    expect_saved(page)
    assert reckoned(page, "all round") == pytest.approx(52, abs=4 * ABOUT_A_CLICK)
    stroke(pen, spot_of(page, FRONT[2]), spot_of(page, (15, 26)))
    expect_saved(page)
    assert provisional(page, "all round") > 56


def stroke(pen: CDPSession, start: tuple[float, float], end: tuple[float, float] | None = None) -> None:
    """The pen set down, drawn along and lifted."""

    def event(kind: str, at: tuple[float, float]) -> None:
        given = {"type": kind, "x": at[0], "y": at[1], "button": "left", "buttons": 1, "clickCount": 1}
        pen.send("Input.dispatchMouseEvent", given | {"pointerType": "pen", "force": 0.5})

    end = end or start
    event("mousePressed", start)
    for share in (0.25, 0.5, 0.75, 1) if end != start else ():
        event("mouseMoved", tuple(a + (b - a) * share for a, b in zip(start, end, strict=True)))
    event("mouseReleased", end)
