"""Outlines out of the program: an SVG whose millimetres are millimetres, a DXF that a reader of DXF opens."""

import io
from xml.etree import ElementTree

import ezdxf
import pytest
from django.urls import reverse
from ezdxf import units
from svgpathtools import parse_path

from tests.makers import make_bodice_plate, make_scan, make_traced

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


def test_the_dxf_is_in_millimetres_and_has_its_layers(answer):
    document = ezdxf.read(io.StringIO(answer("outlines-dxf").content.decode()))
    assert document.units == units.MM
    assert not document.audit().has_errors
    lines = [line for line in document.modelspace().query("LINE") if line.dxf.layer == "outlines"]
    assert sum(line.dxf.start.distance(line.dxf.end) for line in lines) == pytest.approx(600)
    assert {"outlines", "levels", "marks", "names"} <= {layer.dxf.name for layer in document.layers}


def test_the_page_of_the_scan_draws_them(answer):
    assert "M50.0000 50.0000 L150.0000 50.0000" in answer("scan-detail").content.decode()
