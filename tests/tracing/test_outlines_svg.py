"""Outlines out of the program: an SVG whose millimetres are millimetres, a DXF that a reader of DXF opens."""

import io
import shutil
import subprocess
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
import weasyprint
from django.urls import reverse
from ezdxf import units
from PIL import Image
from svgpathtools import parse_path

from catalogue.tracing.exchange.svg_outlines import read_outlines
from tests.makers.rows import (
    make_bodice_plate,
    make_piece,
    make_plate,
    make_reference,
    make_scan,
    make_traced,
)

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def answer(client, people):
    """What a reader of the workroom is answered; the piece is 100 by 200 mm at full size."""
    plate = make_bodice_plate(people.workroom)
    make_scan(plate)
    make_traced(plate.pieces.first())
    client.force_login(people.reader)
    return lambda name: client.get(reverse(name, args=[plate.pk]))


def test_a_user_unit_of_the_svg_is_a_millimetre_and_its_square_measures_a_hundred(answer):
    root = ElementTree.fromstring(answer("outlines-svg").content)  # noqa: S314  our own file
    width, height = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
    assert root.get("viewBox").split()[2:] == [f"{width:.3f}", f"{height:.3f}"]
    square = parse_path(next(path for path in root.iter(f"{SVG}path") if path.get("id")).get("d"))
    left, right, top, bottom = square.bbox()
    assert (right - left, bottom - top) == (pytest.approx(100), pytest.approx(100))
    outline = parse_path(root.find(f"{SVG}g/{SVG}path").get("d"))
    assert outline.length() == pytest.approx(600)


def test_the_dxf_is_in_millimetres_and_each_piece_has_its_layer(answer):
    document = ezdxf.read(io.StringIO(answer("outlines-dxf").content.decode()))
    assert document.units == units.MM
    assert not document.audit().has_errors
    lines = [line for line in document.modelspace().query("LINE") if line.dxf.layer == "piece front"]
    assert sum(line.dxf.start.distance(line.dxf.end) for line in lines) == pytest.approx(600)
    assert {"levels", "notches", "darts", "grain lines", "names"} <= {
        layer.dxf.name for layer in document.layers
    }


# Legs that bow through a point each: with one point, and closing again at a second.
BOWED = [(150, 500), (165, 400), (200, 300), (235, 400), (250, 500)]
CLOSED = [(150, 400), (165, 350), (200, 250), (235, 350), (250, 400), (235, 440), (200, 490), (165, 440)]


@pytest.mark.parametrize("points", [BOWED, CLOSED])
def test_the_bowed_legs_of_a_dart_are_drawn_as_curves_and_read_back(client, people, points):
    plate = make_bodice_plate(people.workroom)
    make_scan(plate)
    traced = make_traced(plate.pieces.first())
    traced.marks = [{"kind": "dart", "line": "", "count": 1, "points": [list(point) for point in points]}]
    traced.save()
    client.force_login(people.reader)
    drawn = client.get(reverse("outlines-svg", args=[plate.pk])).content.decode()
    [mark] = read_outlines(drawn).pieces[0].shape.marks
    # Half a millimetre to a pixel.
    assert list(mark.points) == pytest.approx([complex(x, y) / 2 for x, y in points], abs=1e-3)
    dxf = ezdxf.read(io.StringIO(client.get(reverse("outlines-dxf", args=[plate.pk])).content.decode()))
    legs = [leg for leg in dxf.modelspace().query("SPLINE") if leg.dxf.layer == "darts"]
    assert len(legs) == {5: 4, 8: 8}[len(points)]


def test_a_name_that_dxf_cannot_hold_is_written_with_dashes(client, people):
    client.force_login(people.reader)
    plate = make_plate(make_reference(people.workroom))
    make_scan(plate)
    make_traced(make_piece(plate, 'side/back "B"', cloth="lining"))
    document = ezdxf.read(io.StringIO(client.get(f"/plates/{plate.pk}/outlines.dxf").content.decode()))
    assert "piece side-back -B- lining" in document.layers


@pytest.mark.parametrize("name", ["scan-detail", "plate-detail"])
def test_the_pages_of_the_plate_draw_them(answer, name):
    assert "M50.0000 50.0000 L150.0000 50.0000" in answer(name).content.decode()


def test_printed_the_square_measures_a_hundred_millimetres_and_the_piece_its_size(answer, tmp_path):
    """Laid out by WeasyPrint, drawn by pdftoppm at ten pixels to the millimetre, and measured there."""
    svg = answer("outlines-svg").content.decode()
    root = ElementTree.fromstring(svg)  # noqa: S314  our own file
    page = f"<style>@page{{size:{root.get('width')} {root.get('height')};margin:0}}body{{margin:0}}</style>"
    weasyprint.HTML(string=page + svg).write_pdf(tmp_path / "outlines.pdf")
    pdftoppm = shutil.which("pdftoppm")
    subprocess.run([pdftoppm, "-r", "254", "-gray", "outlines.pdf", "page"], check=True, cwd=tmp_path)
    with Image.open(next(tmp_path.glob("page*.pgm"))) as picture:
        drawn = np.asarray(picture) < 128
    left, top = (float(part) for part in root.get("viewBox").split()[:2])
    assert extent(drawn, 10 * (140 - left), 10 * (340 - top)) == pytest.approx((1000, 1000), abs=1.5)
    assert extent(drawn, 10 * (60 - left), 10 * (60 - top)) == pytest.approx((1000, 2000), abs=1.5)


def extent(drawn: np.ndarray, x: float, y: float) -> tuple[float, float]:
    """How wide and high a rectangle is from line to line, of which a point (px) lies within."""
    row, column = drawn[round(y)], drawn[:, round(x)]
    return tuple(
        middle_of_line(line[at:]) + middle_of_line(line[:at][::-1]) + 1
        for line, at in ((row, round(x)), (column, round(y)))
    )


def middle_of_line(pixels: np.ndarray) -> float:
    """How far off the middle of the first line lies."""
    start = int(np.argmax(pixels))
    return start + (int(np.argmin(pixels[start:])) - 1) / 2
