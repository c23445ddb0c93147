"""What is asked of a lay as a row keeps it: as values, and as it was kept before 30 November 2026, in files
of the `lay` command and beside them what these have no word for.
"""

import pytest
from shapely import Polygon

from catalogue.workroom.reader.codec import to_json
from fitting.laying.calculation.cloth import Direction
from fitting.laying.loading.orders import lay_request


def test_a_row_kept_as_files_of_the_command_asks_what_it_asked():
    square = [[0, 0], [100, 0], [100, 200], [0, 200]]
    cut = [[0, -12.7], [112.7, -12.7], [112.7, 212.7], [0, 212.7]]
    piece = {"name": "front", "outline": square, "cut": 1, "mirrored_pair": False, "allowance": "1/2 in"}
    orders = [
        {"format": "plate-and-toile lay", "version": 1, "seconds": 10, "pieces": [piece],
         "cloth": {"width": width, "direction": "two-way", "unit": "1/4 yd", "repeat": {"along": "9 in"}}}
        for width in ("45 in", "140 cm")
    ]  # fmt: skip
    request = lay_request(
        {
            "form": {"width_1": "45 in", "edge hem": "2 in"},
            "orders": orders,
            "lines": {"front": {"cut": cut, "half": True}},
            "folded": True,
            "spare": ["back"],
            "graded": ["front"],
            "boxes": [],
            "matched": {"front": "its lowest point"},
        }
    )
    assert [cloth.width_mm for cloth in request.cloths] == pytest.approx([1143, 1400])
    assert {cloth.direction for cloth in request.cloths} == {Direction.TWO_WAY}
    assert (request.widths, request.unit, request.seconds) == (("45 in", "140 cm"), "1/4 yd", 10)
    assert request.is_folded
    (front,) = request.pieces
    assert Polygon(front.cut_outline).equals(Polygon(cut))
    assert (front.on_fold, front.allowance_mm) == (True, pytest.approx(12.7))
    assert (request.spare, request.graded, request.form["edge hem"]) == (("back",), ("front",), "2 in")
    assert lay_request(to_json(request)) == request
