"""Levels that may be cut short: along an edge, across the armhole, out of the piece and back. By hand."""

import pytest

from catalogue.tracing.calculation.cut_short import levels_cut_short
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths

NEAR_MM = 1.0


def told(nodes, line, start, end):
    shape = TracedShape(name="front", outline=Outline(nodes=tuple(nodes)))
    found = levels_cut_short(shape, [LevelLine(line=line, start=start, end=end)], NEAR_MM)
    moved = [level_widths(shape, [one.moved])[0].width_mm if one.moved else None for one in found]
    return found, [one.sentence(lambda mm: f"{mm:.0f} mm") for one in found], moved


# 100 mm wide; its waist edge falls from 200 to 200.6 and rises again: as nearly level as it is drawn.
BODICE = [
    Node(at=0j, edge="shoulder"),
    Node(at=100 + 0j, edge="side seam"),
    Node(at=100 + 200j, edge="waist"),
    Node(at=75 + 200.6j),
    Node(at=25 + 199.8j),
    Node(at=0 + 200j, edge="centre front"),
]


def test_a_level_along_an_edge_is_named_with_its_place_and_is_whole_on_the_other_side():
    # At 200.3 the level lies within the piece only where the edge dips below it: from 56.25 (75 − 50 × 3/8)
    # to 87.5 mm, of 100.
    found, [sentence], moved = told(BODICE, "waist", -20 + 200.3j, 120 + 200.3j)
    assert found[0].width_mm == pytest.approx(87.5 - 56.25)
    assert (
        "runs along the edge “waist” of the front for 100 mm, from 0 mm after it meets the piece" in sentence
    )
    assert "the 31 mm that it measures may be cut short" in sentence
    assert moved == [pytest.approx(100)]


def test_a_level_that_misses_the_edge_by_a_hair_says_so_too():
    found, [sentence], moved = told(BODICE, "waist", -20 + 200.7j, 120 + 200.7j)
    assert found[0].width_mm == 0
    assert "the 0 mm that it measures may be cut short" in sentence
    assert moved == [pytest.approx(100)]


def test_a_level_well_within_the_piece_is_not_spoken_of():
    assert told(BODICE, "waist", -20 + 150j, 120 + 150j)[0] == []
    assert told(BODICE, "waist", -20 + 190j, 120 + 195j)[0] == []  # aslant, and clear of the edge


# An armhole of 40 mm bitten out of the upper right corner, and a piece that is 100 mm wide below it.
ARMED = [
    Node(at=0j, edge="shoulder"),
    Node(at=60 + 0j, edge="armhole"),
    Node(at=60 + 40j, corner=False),
    Node(at=100 + 50j, edge="side seam"),
    Node(at=100 + 200j, edge="waist"),
    Node(at=0 + 200j, edge="centre front"),
]


def test_a_bust_line_through_the_armhole_says_so_and_goes_below_it():
    found, [sentence], moved = told(ARMED, "bust", -20 + 20j, 120 + 20j)
    assert (found[0].kind, found[0].width_mm) == ("armhole", pytest.approx(60))
    assert "crosses the armhole of the front, 60 mm after it enters the piece" in sentence
    assert moved == [pytest.approx(100)]


def test_a_level_round_a_limb_may_go_through_an_armhole():
    assert told(ARMED, "upper arm", -20 + 20j, 120 + 20j)[0] == []


def test_an_armhole_that_ends_at_the_level_is_not_crossed():
    assert told(ARMED, "bust", -20 + 50.5j, 120 + 50.5j)[0] == []


# Front and back in one, the armhole between them from 40 to 60 mm and down to 50.
WHOLE = [
    Node(at=0j, edge="shoulder"),
    Node(at=40 + 0j, edge=""),
    Node(at=40 + 50j),
    Node(at=60 + 50j),
    Node(at=60 + 0j, edge=""),
    Node(at=100 + 0j, edge="centre back"),
    Node(at=100 + 200j, edge="waist"),
    Node(at=0 + 200j, edge="centre front"),
]


def test_a_level_that_leaves_the_piece_and_comes_back_says_what_it_leaves_out():
    found, [sentence], moved = told(WHOLE, "bust", -20 + 30j, 120 + 30j)
    assert (found[0].kind, found[0].width_mm) == ("gap", pytest.approx(80))
    assert "leaves the front 40 mm after it enters it, and comes back 20 mm farther" in sentence
    assert moved == [pytest.approx(100)]


def test_the_gap_of_a_dart_is_none():
    slit = [*BODICE[:3], Node(at=60 + 200j), Node(at=50 + 100j), Node(at=40 + 200j), *BODICE[5:]]
    assert told(slit, "waist", -20 + 150j, 120 + 150j)[0] == []
