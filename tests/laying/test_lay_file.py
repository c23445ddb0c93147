"""What an order for a lay may say, what stands in for what it leaves out, how the shop's unit is written."""

import json

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.laying.calculation.cloth import Direction
from fitting.laying.exchange.lay_answer import to_buy_text
from fitting.laying.exchange.lay_file import read_lay

SQUARE = [[0, 0], [100, 0], [100, 100], [0, 100]]


def make_order(**values) -> dict:
    return {"cloth": {"width": "22 in"}, "pieces": [{"outline": SQUARE}]} | values


def faults_of(order: object) -> list[str]:
    with pytest.raises(Faults) as refused:
        read_lay(order if isinstance(order, str) else json.dumps(order))
    return [str(fault) for fault in refused.value.faults]


def test_what_is_left_out_takes_its_default_and_is_listed():
    lay_file = read_lay(json.dumps(make_order()))
    cloth, (piece,) = lay_file.order.cloth, lay_file.order.pieces
    assert (cloth.selvedge_mm, cloth.gap_mm, cloth.repeat.along_mm, cloth.unit_mm) == (0, 0, 0, 114.3)
    assert cloth.direction is Direction.ONE_WAY
    assert (cloth.shrinkage_length, cloth.shrinkage_width, lay_file.order.seconds) == (0, 0, 5)
    assert (piece.name, piece.copies, piece.mirrored_pair, piece.allowance_mm) == ("piece 1", 1, False, 0)
    assert lay_file.defaults_used == {
        "format": "plate-and-toile lay",
        "version": "1",
        "cloth.selvedge": "0 in",
        "cloth.direction": "one-way",
        "cloth.gap": "0 in",
        "cloth.shrinkage.length": "0",
        "cloth.shrinkage.width": "0",
        "cloth.repeat": "0 in",
        "cloth.unit": "1/8 yd",
        "pieces[0].name": "piece 1",
        "pieces[0].mirrored_pair": "false",
        "pieces[0].cut": "1",
        "pieces[0].allowance": "0 in",
        "seconds": "5",
    }


def test_a_pair_is_cut_twice_unless_said():
    order = make_order(pieces=[{"outline": SQUARE, "mirrored_pair": True}])
    assert read_lay(json.dumps(order)).order.pieces[0].copies == 2


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"format": "another"}, "format: This must be “plate-and-toile lay”."),
        ({"version": 2}, "version: Only version 1 can be read."),
        ({"cloth": {}}, "cloth.width: This is missing."),
        ({"cloth": {"width": 22}}, "cloth.width: This must be a length as text"),
        ({"cloth": {"width": "22"}}, "cloth.width: 22 of what?"),
        ({"cloth": {"width": "22 in", "shrinkage": 0.05}}, "cloth.shrinkage: This must be a table"),
        ({"cloth": {"width": "22 in", "shrinkage": {"length": 1}}}, "cloth.shrinkage.length: Shrinkage is"),
        ({"cloth": {"width": "22 in", "shrinkage": {"width": -0.1}}}, "cloth.shrinkage.width: This must not"),
        ({"cloth": {"width": "22 in", "selvedge": "11 in"}}, "cloth.selvedge: The two selvedges leave"),
        ({"cloth": {"width": "22 in", "direction": "up"}}, "cloth.direction: This must be one of: one-way"),
        ({"cloth": {"width": "22 in", "unit": "0 yd"}}, "cloth.unit: This must be more than nothing."),
        ({"seconds": 0}, "seconds: The search takes more than 0"),
        ({"seconds": 601}, "seconds: The search takes more than 0"),
        ({"seconds": "5"}, "seconds: This must be a number"),
        ({"pieces": []}, "pieces: Give at least one piece."),
        ({"pieces": [{}]}, "pieces[0].outline: This is missing"),
        ({"pieces": [{"outline": SQUARE, "cut": 0}]}, "pieces[0].cut: This must be a whole number from 1"),
        ({"pieces": [{"outline": SQUARE, "name": " "}]}, "pieces[0].name: A piece needs a name"),
        ({"pieces": [{"outline": SQUARE, "allowance": 12}]}, "pieces[0].allowance: This must be a length"),
        ({"pieces": [{"outline": [[0, 0], [1, 1], [2, 2]]}]}, "pieces[0].outline: These points lie on one"),
        ({"pieces": [{"outline": [[0, 0], [9, 0, 1], [0, 9]]}]}, "pieces[0].outline[1]: A point has two"),
        ({"pieces": [{"outline": [[0, 0], [9, None], [0, 9]]}]}, "pieces[0].outline[1][1]: This must be a"),
        ({"pieces": [{"outline": [[0, 0], [2e6, 0], [0, 9]]}]}, "pieces[0].outline[1][0]: This is over"),
        ({"pieces": [{"outline": SQUARE, "colour": "red"}]}, "pieces[0].colour: This key is not known here"),
    ],
)
def test_what_cannot_be_laid_is_named_by_its_path(change, fault):
    (said,) = faults_of(make_order(**change))
    assert said.startswith(fault)


def test_keys_that_come_twice_and_numbers_that_are_none_are_faults():
    text = (
        '{"cloth": {"width": "22 in", "width": "20 in"}, "pieces": [{"outline": [[0, 0], [NaN, 0], [0, 9]]}]}'
    )
    assert faults_of(text) == [
        "cloth.width: This key comes twice.",
        "pieces[0].outline[1][0]: This must be a number; NaN is not.",
    ]


@pytest.mark.parametrize(
    ("length_mm", "unit", "text"),
    [
        (914.4 * 3.625, "1/8 yd", "3 5/8 yd"),
        (914.4 * 3, "1/8 yd", "3 yd"),
        (914.4 * 0.5, "1/8 yd", "1/2 yd"),
        (914.4 * 1.25, "¼ yard", "1 1/4 yard"),
        (3400, "10 cm", "340 cm"),
        (2250, "0.25 m", "2.25 m"),
        (57.15 * 7, "1 nail", "7 nail"),
        (457.2 * 3, "1 ft 6 in", "54 in"),
    ],
)
def test_the_length_to_buy_is_written_as_the_shop_sells(length_mm, unit, text):
    assert to_buy_text(length_mm, unit) == text
