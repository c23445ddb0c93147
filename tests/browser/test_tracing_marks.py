"""Marks and levels on the board: drawn, moved by hand, by keys and in their table, snapped, and measured."""

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.tracing_page import (
    ABOUT_A_CLICK,
    FRONT,
    Sent,
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


@pytest.fixture(scope="module")
def plate(keeper: BrowserContext, sent: Sent) -> str:
    """The path of a plate that is calibrated: every test traces a piece of its own on it."""
    page = keeper.new_page()
    path = new_plate(page, "Drawn and marked")
    send_and_calibrate(page, path, sent)
    page.close()
    return path


@pytest.fixture
def traced(page: Page, plate: str, request: pytest.FixtureRequest) -> Page:
    """A piece like the front, traced; a waist line across it, and no other level."""
    name = request.node.originalname.removeprefix("test_")[:40]
    page.goto(f"{plate}pieces/add/")
    page.get_by_label("Name").fill(name)
    page.locator("main form button.primary").first.click()
    page.goto(f"{plate}trace/")
    page.locator("[data-tracing][data-ready]").wait_for()
    page.locator("[data-piece]").select_option(label=name)
    while page.locator("[data-marks] button").count():
        page.locator("[data-marks] button").first.click()
    page.get_by_label("Snap to points and edges").uncheck()
    trace(page, FRONT)
    page.get_by_label("Snap to points and edges").check()
    choose(page, "level")
    for end in ((3, 18), (18, 18)):
        press(page, spot_of(page, end))
    expect_saved(page)
    return page


def box(page: Page, name: str):
    return page.locator(f"[data-marks] [aria-label='{name}']")


def typed(page: Page, name: str, text: str) -> None:
    box(page, name).fill(text)
    box(page, name).press("Tab")


def dragged(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    page.mouse.move(*spot_of(page, start))
    page.mouse.down()
    page.mouse.move(*spot_of(page, end), steps=6)
    page.mouse.up()


def test_a_dart_stands_with_its_feet_on_the_edge_and_is_taken_off_the_level(traced: Page):
    page = traced
    choose(page, "dart")
    expect(page.locator("[data-chosen]")).to_have_text("Next: one foot of the dart")
    # A hand's breadth off the lower edge, which holds the foot.
    for place in ((8, 20.8), (9, 13), (10, 21.2)):
        press(page, spot_of(page, place))
    expect_saved(page)
    for foot in ("one foot", "the other foot"):
        down = float(box(page, f"dart 1, {foot}, down").input_value())
        assert down == pytest.approx(float(box(page, "dart 1, one foot, down").input_value()), abs=0.02)
    # 2 in at the foot, 8 in below the point; the level is 5 in below it.
    assert reckoned(page, "taken up at the waist") == pytest.approx(2 * 5 / 8, abs=ABOUT_A_CLICK)

    choose(page, "move")
    dragged(page, (9, 13), (9, 17))
    expect_saved(page)
    assert reckoned(page, "taken up at the waist") == pytest.approx(2 * 1 / 4, abs=ABOUT_A_CLICK)
    page.locator("[data-board]").focus()
    page.keyboard.press("Delete")
    expect(box(page, "dart 1, remove")).to_have_count(0)
    page.keyboard.press("Control+z")
    expect(box(page, "dart 1, remove")).to_have_count(1)
    expect_saved(page)


def test_a_dart_bows_through_a_point_on_either_leg(traced: Page):
    page = traced
    choose(page, "bowed dart")
    for word, place in (
        ("one foot", (8, 21)),
        ("on that leg", (8.2, 18)),
        ("its point", (9, 13)),
        ("on the other leg", (9.8, 18)),
        ("the other foot", (10, 21)),
    ):
        expect(page.locator("[data-chosen]")).to_have_text(f"Next: {word} of the dart")
        page.keyboard.down("Alt")
        press(page, spot_of(page, place))
        page.keyboard.up("Alt")
    expect_saved(page)
    # The level goes through the points pressed on the legs; straight ones would take up 2 × 5/8 in there.
    assert reckoned(page, "taken up at the waist") == pytest.approx(1.6, abs=ABOUT_A_CLICK)
    expect(box(page, "dart 1, on the other leg, down")).to_have_count(1)


def test_a_level_along_an_edge_is_moved_with_one_press(traced: Page):
    page = traced
    page.locator("[data-level-name]").select_option(label="hip or seat")
    choose(page, "level")
    for end in ((3, 21), (18, 21)):
        press(page, spot_of(page, end))
    expect_saved(page)
    expect(page.locator("[data-cut-short]")).to_contain_text("The hip or seat line runs along")
    page.locator("[data-cut-short] button").first.click()
    expect(page.get_by_text("The level is moved")).to_be_visible()
    page.locator("[data-tracing][data-ready]").wait_for()
    assert reckoned(page, "at the hip or seat") == pytest.approx(10, abs=ABOUT_A_CLICK)
    expect(page.locator("[data-cut-short] button")).to_have_count(0)


def test_pleats_alike_are_counted_and_a_level_is_moved_by_keys_and_in_the_table(traced: Page):
    page = traced
    choose(page, "pleat")
    for place in ((7, 14), (7, 21), (7.5, 14), (7.5, 21)):
        page.keyboard.down("Alt")  # half an inch is within the reach of snapping here
        press(page, spot_of(page, place))
        page.keyboard.up("Alt")
    expect_saved(page)
    once_in = reckoned(page, "taken up at the waist")
    assert once_in == pytest.approx(0.5, abs=ABOUT_A_CLICK)
    typed(page, "pleat 1, how many alike", "4")
    expect_saved(page)
    assert reckoned(page, "taken up at the waist") == pytest.approx(4 * once_in, abs=0.001)

    choose(page, "move")
    down = box(page, "level 1, one end, down")
    was_in = float(down.input_value())
    down.focus()
    page.locator("[data-board]").focus()
    page.keyboard.press("Shift+ArrowUp")
    assert float(down.input_value()) < was_in
    # Aslant, the level is longer: 10 in across, 6 in down over 15 in.
    for name in ("one end", "other end"):
        typed(page, f"level 1, {name}, across", "1" if name == "one end" else "16")
        typed(page, f"level 1, {name}, down", "12" if name == "one end" else "18")
    box(page, "level 1, of what").select_option(label="hip or seat")
    expect_saved(page)
    assert reckoned(page, "at the hip or seat") == pytest.approx(10 * (1 + 0.4**2) ** 0.5, abs=0.2)
    assert provisional(page, "at the hip or seat") == pytest.approx(
        reckoned(page, "at the hip or seat"), abs=0.001
    )
    page.goto(f"{page.url}?piece={page.locator('[data-piece]').input_value()}")
    assert float(box(page, "level 1, other end, down").input_value()) == pytest.approx(18, abs=0.001)


def test_a_point_snaps_to_points_and_to_other_sides_unless_that_is_switched_off(traced: Page):
    page = traced
    choose(page, "split")
    press(page, spot_of(page, (10, 5)))
    expect(points(page)).to_have_count(5)

    def second_down() -> float:
        return float(points(page).nth(1).locator("[name=y]").input_value())

    foot = float(points(page).nth(3).locator("[name=y]").input_value())
    choose(page, "move")
    # To the piece's own lower edge, from a little above it.
    dragged(page, (10, 5), (10, 20.8))
    assert second_down() == pytest.approx(foot, abs=0.05)
    page.get_by_label("Snap to points and edges").uncheck()
    dragged(page, (10, 21), (10, 20.6))
    assert abs(second_down() - foot) > 0.2


def test_a_point_beside_the_line_is_laid_on_it_and_that_can_be_undone(traced: Page):
    page = traced
    across = points(page).nth(0).locator("[name=x]")
    beside_in = float(across.input_value()) + 0.08  # three pixels of the scan
    across.fill(f"{beside_in:.3f}")
    across.press("Tab")
    page.locator("[data-act=line]").click()
    expect(across).not_to_have_value(f"{beside_in:.3f}")
    assert float(across.input_value()) == pytest.approx(5 - 2, abs=0.02)
    expect_saved(page)
    assert reckoned(page, "all round") == pytest.approx(52, abs=0.05)
    page.locator("[data-act=undo]").click()
    expect(across).to_have_value(f"{beside_in:.3f}")
    expect_saved(page)


def test_a_half_is_unfolded_turned_over_and_copied(traced: Page):
    page = traced
    around_in = provisional(page, "all round")
    points(page).nth(3).locator("[name=edge]").fill("centre front")
    points(page).nth(3).locator("[name=edge]").press("Tab")
    page.get_by_text("Mirror, unfold, copy").click()
    page.locator("[data-act=unfold]").click()
    expect(points(page)).to_have_count(6)
    expect_saved(page)
    # Twice the piece without its fold of 16 in.
    assert provisional(page, "all round") == pytest.approx(2 * (around_in - 16), abs=4 * ABOUT_A_CLICK)
    assert provisional(page, "area") == pytest.approx(2 * 160 * 25.4, rel=0.05)
    page.locator("[data-act=undo]").click()
    page.locator("[data-act=mirror]").click()
    expect_saved(page)
    assert provisional(page, "all round") == pytest.approx(around_in, abs=0.001)
    from_piece = page.locator("[data-piece]").input_value()
    page.locator("[data-piece]").select_option(label="back")
    page.locator("[data-copy-from]").select_option(from_piece)
    page.locator("[data-act=copy]").click()
    expect(points(page)).to_have_count(4)
    expect_saved(page)
    assert reckoned(page, "all round") == pytest.approx(around_in, abs=0.001)
