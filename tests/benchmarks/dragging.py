"""How smoothly a point among 300 is dragged on the tracing page, in headless Chromium.

    python -m tests.benchmarks.dragging

The demo is served as a person would serve it; a piece of 300 points is traced on a plate of it. The floor is
an empty page over which the pointer goes the same way.
"""

import json
import math
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
POINTS, MOVES = 300, 240
CHROMIUM = "/usr/bin/chromium"
RECORD = """() => {
  window.frames_ms = [];
  let last = performance.now();
  const tick = (now) => { frames_ms.push(now - last); last = now; requestAnimationFrame(tick); };
  requestAnimationFrame((now) => { last = now; requestAnimationFrame(tick); });
}"""


@contextmanager
def served_demo() -> Iterator[str]:
    """The address that signs the demo's keeper in."""
    with tempfile.TemporaryDirectory() as folder:
        surroundings = {**os.environ, "PLATE_DATA": folder, "DJANGO_SETTINGS_MODULE": "fitting.site.settings"}
        command = [sys.executable, "-m", "django", "demo", "--port", "0"]
        with subprocess.Popen(
            command, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, text=True
        ) as program:
            yield next(
                found[0] for line in program.stdout if (found := re.search(r"http://\S+/once/\S+", line))
            )
            program.terminate()


def trace_many(page: Page) -> tuple[float, float]:
    """A wavy piece of 300 smooth points on the first plate; where its first point lies in the window."""
    page.goto("/plates/1/trace/")
    given = json.loads(page.locator("#tracing-data").text_content())
    board = given["board"]
    wide, high = board["width"] * board["unit"], board["height"] * board["unit"]
    middle = complex(board["left"] + wide / 2, board["top"] + high / 2)
    angles = 2 * math.pi * np.arange(POINTS) / POINTS
    places = middle + 0.4 * min(wide, high) * (1 + 0.05 * np.sin(9 * angles)) * np.exp(1j * angles)
    nodes = [{"x": p.real, "y": p.imag, "corner": False, "curved": True, "edge": ""} for p in places]
    nodes[0]["edge"], nodes[POINTS // 2]["edge"] = "side seam", "hem"
    given["drawing"]["pieces"][0] |= {"nodes": nodes, "marks": []}
    answer = page.request.post(
        given["keep"]["address"],
        headers={"X-CSRFToken": given["keep"]["token"], "Referer": page.url},
        data={"as_of": given["keep"]["asOf"], **given["drawing"]},
    )
    assert answer.ok, answer.text()
    page.reload()
    page.locator("[data-tracing][data-ready]").wait_for()
    page.locator("[data-board]").scroll_into_view_if_needed()
    box = page.locator("[data-board]").bounding_box()
    scale = min((box["width"] - 18) / wide, (box["height"] - 18) / high)
    offset = (places[0] - middle) * scale
    return box["x"] + box["width"] / 2 + offset.real, box["y"] + box["height"] / 2 + offset.imag


def dragged_frames(page: Page) -> tuple[np.ndarray, float]:
    """Milliseconds from frame to frame, and how busy the page was in each, while a point goes round."""
    x, y = trace_many(page)
    page.wait_for_timeout(1500)
    meter = page.context.new_cdp_session(page)
    meter.send("Performance.enable")

    def busy_s() -> float:
        return next(
            m["value"] for m in meter.send("Performance.getMetrics")["metrics"] if m["name"] == "TaskDuration"
        )

    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 6, y)
    page.evaluate(RECORD)
    before_s = busy_s()
    for step in range(MOVES):
        angle = 2 * math.pi * step / 60
        page.mouse.move(x + 40 * math.cos(angle), y + 40 * math.sin(angle))
    busy_ms = 1000 * (busy_s() - before_s)
    frames = np.array(page.evaluate("frames_ms"))
    page.mouse.up()
    moved = page.locator("[data-points] tr").nth(0).locator("[name=x]").input_value()
    assert moved, "The point was not dragged."
    return frames, busy_ms / len(frames)


def empty_frames(page: Page) -> np.ndarray:
    """Milliseconds from frame to frame of a page with nothing on it."""
    page.goto("about:blank")
    page.evaluate(RECORD)
    for step in range(MOVES):
        angle = 2 * math.pi * step / 60
        page.mouse.move(400 + 40 * math.cos(angle), 400 + 40 * math.sin(angle))
    return np.array(page.evaluate("frames_ms"))


def dragging() -> Iterator[tuple[str, str, str]]:
    """Rows of the benchmark's table: what was measured, the result, the aim."""
    with served_demo() as address, sync_playwright() as playwright:
        base = re.match(r"http://[^/]+", address)[0]
        chromium = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"]
        )
        page = chromium.new_context(base_url=base, viewport={"width": 1280, "height": 900}).new_page()
        page.goto(address)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url("**/")
        frames, busy_ms = dragged_frames(page)
        empty = np.percentile(empty_frames(page), 95)
    middle, slow = np.percentile(frames, [50, 95])
    yield f"a point among {POINTS} dragged: 95th percentile of frames", f"{slow:.1f} ms", "20 ms"
    yield f"a point among {POINTS} dragged: middle of {len(frames)} frames", f"{middle:.1f} ms", ""
    yield "work of the page in each frame", f"{busy_ms:.1f} ms", ""
    yield "95th percentile of frames, times that of an empty page", f"{slow / empty:.2f}", ""


if __name__ == "__main__":
    for row in dragging():
        print(": ".join(row[:2]))
