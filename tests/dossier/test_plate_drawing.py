"""Traced pieces in the dossier: at the scale that it says, with words for those who do not see them."""

import re

import pytest
from pypdf.generic import ContentStream, DictionaryObject, IndirectObject

from catalogue.plates.models.plate import Plate
from fitting.dossier.loading.plate_pages import HIGHEST_MM, WIDEST_MM, plate_drawings
from tests.makers.rows import make_bodice_plate, make_scan, make_traced

PX_PER_MM = 96 / 25.4  # CSS Values and Units, level 4, 6.2


def words_for_pictures(node, found: list[str]) -> list[str]:
    """Every alternative text of the tagged structure."""
    node = node.get_object() if isinstance(node, IndirectObject) else node
    if isinstance(node, list):
        for one in node:
            words_for_pictures(one, found)
    elif isinstance(node, DictionaryObject):
        if "/Alt" in node:
            found.append(str(node["/Alt"]))
        if "/K" in node:
            words_for_pictures(node["/K"], found)
    return found


def test_pieces_levels_and_bar_are_told_in_words(egg_seller):
    told = words_for_pictures(egg_seller.reader.trailer["/Root"]["/StructTreeRoot"]["/K"], [])
    stays = next(words for words in told if words.startswith("Traced pieces of Half-boned stays"))
    assert "1 front, 2 side front, 3 side, 4 back, 5 shoulder strap" in stays
    assert "levels a bust or chest, b under bust, c waist" in stays
    assert "the bar is 12 in at full size" in stays


def test_every_drawing_has_the_scale_that_it_says(egg_seller):
    """By the operators of the page: how many CSS pixels a millimetre of the drawing is."""
    said = [int(scale) for scale in re.findall(r"As traced, drawn 1:(\d+) on this paper", egg_seller.html)]
    assert len(said) == 3
    scales = [
        float(given[0])
        for page in egg_seller.reader.pages
        for given, operator in ContentStream(page.get_contents(), egg_seller.reader).operations
        if operator == b"cm"
    ]
    for scale in said:
        assert any(found == pytest.approx(PX_PER_MM / scale, rel=1e-4) for found in scales)


def test_a_drawing_is_as_large_as_the_paper_allows(people):
    plate = make_bodice_plate(people.workroom)
    rows = Plate.objects.with_newest_matrix().prefetch_related("pieces__traced")
    assert plate_drawings(rows.all(), "in") == {}
    make_scan(plate)
    make_traced(plate.pieces.first())
    drawn = plate_drawings(rows.all(), "cm")[plate.pk]
    assert drawn.scale == 2  # 220 mm high with its margin
    assert drawn.figure.width / drawn.scale <= WIDEST_MM
    assert drawn.figure.height / drawn.scale <= HIGHEST_MM
    assert drawn.figure.bar_name.name == "5 cm"
