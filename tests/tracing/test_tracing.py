"""What a traced piece comes to: worked by hand."""

import pytest

from catalogue.tracing.calculation.geometry import check_marks
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, level_faults, level_widths
from catalogue.workroom.reader.faulty_value import FaultyValue

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


# By hand: the bowed leg runs through 40, 42 and 50 at heights 200, 150 and 100, so s = (200 − height)/100 has
# x = 40 − 2 s + 12 s²; the dart takes 2 × (50 − x). Straight legs would take 10 and 15 at these heights.
@pytest.mark.parametrize(("height", "take_up"), [(90, 0), (150, 16), (175, 19.5), (125, 9.5), (199.9, 20)])
def test_a_dart_whose_legs_bow_takes_up_what_lies_between_the_curves(height, take_up):
    dart = Mark(kind="dart", points=(40 + 200j, 42 + 150j, 50 + 100j, 58 + 150j, 60 + 200j))
    assert level_widths(shape(dart), [at(height)])[0].take_up_mm == pytest.approx(take_up, abs=0.2)


# 2 × 16 at the points pressed on the legs, and 40 where it is widest; nothing beyond its points.
@pytest.mark.parametrize(("height", "take_up"), [(40, 0), (75, 32), (100, 40), (150, 32), (160, 0)])
def test_a_bowed_dart_with_two_points_closes_again(height, take_up):
    left, right = 30 + 100j, 70 + 100j
    ring = (left, 34 + 75j, 50 + 50j, 66 + 75j, right, 66 + 150j, 50 + 155j, 34 + 150j)
    [width] = level_widths(shape(Mark(kind="dart", points=ring)), [at(height)])
    assert width.take_up_mm == pytest.approx(take_up, abs=1e-6)


def slit(*inner: complex) -> TracedShape:
    """The square, whose lower edge runs from 60 in to a point at 50, 100 and back out to 40."""
    legs = [60 + 200j, *inner[:1], 50 + 100j, *inner[1:], 40 + 200j]
    points = [0j, 100 + 0j, 100 + 200j, *legs, 200j]
    nodes = [Node(at=one, corner=one not in inner, curved=bool(inner)) for one in points]
    return TracedShape(name="front", outline=Outline(nodes=tuple(nodes)))


@pytest.mark.parametrize(("height", "take_up"), [(50, 0), (150, 10), (190, 18)])
def test_a_slit_in_the_outline_is_a_dart(height, take_up):
    [width] = level_widths(slit(), [at(height)])
    assert (width.width_mm, width.take_up_mm) == (pytest.approx(100), pytest.approx(take_up))
    assert width.gaps == ()


def test_a_slit_whose_legs_bow_is_a_dart_too():
    [width] = level_widths(slit(58 + 150j, 42 + 150j), [at(150)])
    assert (width.width_mm, width.take_up_mm) == (pytest.approx(100), pytest.approx(16))


def test_a_slit_that_is_marked_as_a_dart_besides_counts_once():
    traced = TracedShape(name="front", outline=slit().outline, marks=(DART,))
    assert level_widths(traced, [at(150)])[0].take_up_mm == pytest.approx(10)


@pytest.mark.parametrize(
    "inner",
    [
        (90 + 200j, 50 + 150j, 10 + 200j),  # wider than deep: a hem cut out
        (60 + 200j, 50 + 185j, 40 + 200j),  # a notch
        (60 + 200j, 60 + 100j, 40 + 100j, 40 + 200j),  # a vent with a square end
        (60 + 200j, 50 + 100j, 50 + 160j, 5 + 160j, 5 + 200j),  # legs that are not sewn together
    ],
)
def test_what_is_no_dart_leaves_a_gap(inner):
    nodes = tuple(Node(at=one) for one in (0j, 100 + 0j, 100 + 200j, *inner, 200j))
    [width] = level_widths(TracedShape(name="front", outline=Outline(nodes=nodes)), [at(190)])
    assert width.take_up_mm == 0
    assert len(width.gaps) == 1


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
    assert fault.sentence.startswith("Mark 1, a dart, has 3 points, or 4 where it has two points;")


@pytest.mark.parametrize("count", [2, 6, 10, 13])
def test_no_archive_brings_a_dart_with_more_points_on_one_leg(count):
    with pytest.raises(FaultyValue):
        check_marks([{"kind": "dart", "points": [[number, 0] for number in range(count)]}])


def test_a_length_drawn_on_a_piece_runs_along_its_points():
    drawn = shape(Mark(kind="length", line="nape to waist", points=(0j, 30j, 40 + 30j)))
    assert drawn.lengths_mm() == {"nape to waist": 70}
