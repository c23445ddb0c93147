"""What a traced piece comes to: worked by hand."""

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, level_faults, level_widths

SQUARE = Outline(nodes=tuple(Node(at=at) for at in (0j, 100 + 0j, 100 + 200j, 200j)))
DART = Mark(kind="dart", points=(40 + 200j, 50 + 100j, 60 + 200j))


def shape(*marks: Mark) -> TracedShape:
    return TracedShape(name="front", outline=SQUARE, marks=marks)


def at(height: float, line: str = "waist", start: float = -50) -> LevelLine:
    return LevelLine(line=line, start=complex(start, height), end=complex(150, height))


@pytest.mark.parametrize(("height", "take_up"), [(50, 0), (100, 0), (150, 10), (190, 18)])
def test_a_dart_takes_up_what_lies_between_its_legs(height, take_up):
    [width] = level_widths(shape(DART), [at(height)])
    assert (width.width_mm, width.take_up_mm) == (100, pytest.approx(take_up))


@pytest.mark.parametrize(("height", "take_up"), [(60, 4), (80, 12), (90, 16), (100, 20), (150, 10)])
def test_a_dart_with_a_foot_closes_again(height, take_up):
    dart = Mark(kind="dart", points=(40 + 100j, 50 + 50j, 60 + 100j, 50 + 200j))
    assert level_widths(shape(dart), [at(height)])[0].take_up_mm == pytest.approx(take_up)


def test_a_pleat_takes_up_what_lies_between_its_folds():
    pleat = Mark(kind="pleat", points=(20 + 0j, 20 + 180j, 45 + 0j, 45 + 180j))
    assert level_widths(shape(pleat), [at(100)])[0].take_up_mm == 25


def test_a_level_that_ends_within_a_piece_is_a_fault():
    assert level_faults(shape(), [at(50)]) == []
    assert "waist line ends within" in str(level_faults(shape(), [at(50, start=20)])[0])


def test_a_level_beside_the_piece_gives_nothing():
    assert level_widths(shape(), [at(250)]) == []


def test_marks_with_too_few_points_are_faults():
    [fault] = shape(Mark(kind="dart", points=(1j, 2j))).faults()
    assert fault.sentence == "Mark 1, a dart, has 3 to 4 points."


def test_a_length_drawn_on_a_piece_runs_along_its_points():
    drawn = shape(Mark(kind="length", line="nape to waist", points=(0j, 30j, 40 + 30j)))
    assert drawn.lengths_mm() == {"nape to waist": 70}
