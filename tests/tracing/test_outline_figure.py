"""Traced pieces on a page: to scale, with a bar of a round length, their names where there is room."""

import pytest
from django.urls import reverse

from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from catalogue.tracing.loading.drawing import drawing_of
from catalogue.tracing.models import TracedLevel
from catalogue.tracing.showing.figure import figure_of
from tests.makers.rows import make_piece, make_plate, make_reference, make_scan, make_traced

NEAR = {"bust": 100, "under bust": 104, "waist": 300}


def piece(name: str, left: float, width: float = 200, height: float = 400) -> tuple[Piece, TracedShape]:
    corners = [
        complex(left, 0),
        complex(left + width, 0),
        complex(left + width, height),
        complex(left, height),
    ]
    return Piece(name=name), TracedShape(
        name=name, outline=Outline(nodes=tuple(Node(at=at) for at in corners))
    )


def figure(*pieces, levels=(), system="cm"):
    return figure_of(drawing_of(pieces, levels), system)


@pytest.mark.parametrize(("system", "name", "bar_mm"), [("cm", "20 cm", 200), ("in", "6 in", 152.4)])
def test_the_bar_is_a_round_length_in_the_readers_unit(system, name, bar_mm):
    drawn = figure(piece("front", 0), piece("back", 500), system=system)
    start, end = drawn.bar
    assert (drawn.bar_name.name, end - start) == (name, pytest.approx(bar_mm))


def test_a_tall_piece_is_no_higher_than_a_page_is_wide():
    drawn = figure(piece("skirt", 0, width=100, height=1200))
    assert drawn.height == pytest.approx(drawn.width)
    assert drawn.names[0].across == pytest.approx(50)


def test_everything_is_within_the_figure_and_levels_are_named_at_their_left():
    waist = LevelLine(line="waist", start=-50 + 100j, end=800 + 100j)
    drawn = figure(piece("front", 0), piece("back", 500), levels=[waist])
    assert [(level.sign, level.name) for level in drawn.levels] == [("a", "waist")]
    assert drawn.levels[0].at == 0 + 100j
    assert drawn.levels[0].across > 14  # of the width: its name stands left of it
    for at in (*(word.at for word in drawn.names), *drawn.bar, 700 + 400j):
        assert drawn.left <= at.real <= drawn.left + drawn.width
        assert drawn.top <= at.imag <= drawn.top + drawn.height


def test_names_of_levels_near_each_other_stand_apart_about_their_lines():
    levels = [LevelLine(line=line, start=-50 + y * 1j, end=800 + y * 1j) for line, y in NEAR.items()]
    drawn = figure(piece("front", 0), piece("back", 500), levels=levels)
    bust, under, waist = (level.at.imag for level in drawn.levels)
    # A line of words is 4 % of the figure high; the two about the middle of 100 and 104, the third as it was.
    high = 0.04 * drawn.width
    assert (bust, under, waist) == pytest.approx((102 - high / 2, 102 + high / 2, 300))


def test_a_level_of_another_piece_leaves_the_names_of_the_first_where_they_are():
    levels = [
        LevelLine(line="waist", start=-50 + 100j, end=250 + 100j),
        LevelLine(line="elbow", start=850 + 104j, end=1200 + 104j),
    ]
    drawn = figure(piece("front", 0), piece("sleeve", 900), levels=levels)
    assert [level.at.imag for level in drawn.levels] == pytest.approx([100, 104])


def test_names_that_would_meet_keep_to_their_signs():
    drawn = figure(*(piece(f"side front {n}", 100 * n, width=80) for n in range(9)), piece("back", 1200))
    assert [name.has_room for name in drawn.names] == [False] * 9 + [True]


def test_the_name_stands_within_a_piece_that_is_cut_out_in_the_middle():
    points = [0j, 300 + 0j, 300 + 200j, 200 + 200j, 200 + 50j, 100 + 50j, 100 + 200j, 0 + 200j]
    shape = TracedShape(name="collar", outline=Outline(nodes=tuple(Node(at=at) for at in points)))
    [drawn] = drawing_of([(Piece(name="collar"), shape)], []).pieces
    assert shape.outline.contains(drawn.middle)


@pytest.mark.parametrize("count", [1, 5])
def test_the_page_of_a_garment_asks_as_often_for_many_traced_plates_as_for_one(
    client, people, django_assert_num_queries, count
):
    client.force_login(people.maker)
    reference = make_reference(people.workroom)
    for _ in range(count):
        plate = make_plate(reference)
        make_scan(plate)
        for name in ("front", "back"):
            make_traced(make_piece(plate, name))
        TracedLevel.objects.create(plate=plate, line="waist", points=[[0, 300], [900, 300]])
    with django_assert_num_queries(14):
        page = client.get(reverse("reference-detail", args=[reference.pk])).content.decode()
    assert page.count("<title id=") == count


def test_the_page_of_a_piece_draws_that_piece_alone(client, people):
    client.force_login(people.maker)
    plate = make_plate(make_reference(people.workroom))
    make_scan(plate)
    front, back = (make_piece(plate, name) for name in ("front", "back"))
    make_traced(front)
    page = client.get(reverse("piece-change", args=[front.pk])).content.decode()
    assert page.count('class="outline-shape"') == 1
    assert "23 5/8 in" in page  # 600 mm all round
    assert "outline-shape" not in client.get(reverse("piece-change", args=[back.pk])).content.decode()
