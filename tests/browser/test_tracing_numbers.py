"""The browser's provisional numbers are the server's to a thousandth of an inch, curve by curve."""

import numpy as np
import pytest
from playwright.sync_api import Page

from catalogue.tracing.calculation.curve import Cubic
from catalogue.tracing.calculation.outline import Node, Outline

WITHIN_MM = 0.0254
IN_THE_PAGE = """async ([script, name, given]) => {
  const module = await import(script);
  return given.map((one) => module[name](...one));
}"""


def reckoned_in_browser(page: Page, script: str, name: str, given: list) -> list:
    return page.evaluate(IN_THE_PAGE, [f"/static/catalogue/trace/{script}.js", name, given])


def place(at: complex) -> dict[str, float]:
    return {"x": at.real, "y": at.imag}


def test_lengths_of_random_curves_agree(page: Page):
    page.goto("/references/")
    draw = np.random.default_rng(8)
    curves = [complex(0) + draw.uniform(0, 700, 4) + 1j * draw.uniform(0, 700, 4) for _ in range(200)]
    # Cusps and curves that double back are the hard ones.
    curves += [np.array([0, 400 + 300j, 300j, 400]) + draw.normal(0, 1e-3, 4) for _ in range(20)]
    curves += [np.array([0, 500, -200, 300]) + 1j * draw.normal(0, 1e-4, 4) for _ in range(20)]
    theirs = reckoned_in_browser(page, "curve", "lengthOf", [[[place(p) for p in curve]] for curve in curves])
    ours = [Cubic(*map(complex, curve)).length() for curve in curves]
    assert np.abs(np.array(theirs) - ours).max() < WITHIN_MM


@pytest.mark.parametrize("seed", range(4))
def test_outlines_agree_in_perimeter_area_and_width(page: Page, seed: int):
    page.goto("/references/")
    draw = np.random.default_rng(seed)
    outlines = [random_outline(draw) for _ in range(25)]
    given = [[as_given(outline)] for outline in outlines]
    around = reckoned_in_browser(page, "outline", "aroundOf", given)
    areas = reckoned_in_browser(page, "outline", "areaOf", given)
    lines = [
        (complex(-900, draw.uniform(-120, 120)), complex(900, draw.uniform(-120, 120))) for _ in outlines
    ]
    asked = [[*one, *map(place, line)] for one, line in zip(given, lines, strict=True)]
    widths = reckoned_in_browser(page, "outline", "widthAt", asked)
    for number, outline in enumerate(outlines):
        assert around[number] == pytest.approx(outline.perimeter, abs=WITHIN_MM)
        assert areas[number] == pytest.approx(outline.area, rel=1e-9)
        spans = sum(abs(b - a) for a, b in outline.spans(*lines[number]))
        assert widths[number] == pytest.approx(spans, abs=WITHIN_MM)


def random_outline(draw: np.random.Generator) -> Outline:
    """Points round a centre, straight and curved, corners and smooth, in any mixture."""
    angles = np.sort(draw.uniform(0, 2 * np.pi, draw.integers(5, 24)))
    return Outline(
        nodes=tuple(
            Node(
                at=complex(draw.uniform(250, 500) * np.exp(1j * angle)),
                corner=bool(draw.integers(2)),
                curved=bool(draw.integers(4)),
            )
            for angle in angles
        )
    )


def as_given(outline: Outline) -> list[dict]:
    return [
        place(node.at) | {"corner": node.corner, "curved": node.curved, "edge": ""} for node in outline.nodes
    ]
