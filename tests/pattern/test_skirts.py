"""Circle skirts and gores: radii against printed ones and geometry, outlines measured again by shapely."""

import math
from itertools import pairwise

import pytest
from shapely import Polygon

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.circle import circle_skirt
from fitting.pattern.calculation.sums.shares import GoreShare, equal_shares, gores, uneven_seams

IN = 25.4


@pytest.mark.parametrize(
    ("part", "radius_in"), [(1, 4.138), (1 / 2, 8.276), (1 / 3, 12.414), (1 / 4, 16.552)]
)
def test_the_radius_of_a_circle_skirt(part, radius_in):
    # prettyquirkypants.com 2014 prints 4.13, 8.2, 12.4, 16.56 for a waist of 26 in; r = waist ÷ angle.
    skirt = circle_skirt(waist_mm=26 * IN, length_mm=30 * IN, part=part).seam_line
    assert skirt.inner_mm / IN == pytest.approx(radius_in, abs=0.0005)
    assert skirt.top_mm / IN == pytest.approx(26)


@pytest.mark.parametrize(
    ("part", "outer_in", "hem_in"), [(1, 43.820, 275.33), (1 / 2, 47.639, 149.66), (1 / 4, 55.279, 86.83)]
)
def test_the_hem_of_a_circle_skirt(part, outer_in, hem_in):
    # Waist 24 in, length 40 in: hem = waist + angle × length.
    skirt = circle_skirt(waist_mm=24 * IN, length_mm=40 * IN, part=part).seam_line
    assert skirt.outer_mm / IN == pytest.approx(outer_in, abs=0.0005)
    assert skirt.hem_mm / IN == pytest.approx(hem_in, abs=0.005)


def test_a_quarter_of_the_waist_is_no_radius():
    # whatthecraft.com/circtrouble.htm warns of it: 8 in for a waist of 32 in would make a waist of 50.3 in.
    assert circle_skirt(waist_mm=32 * IN, length_mm=IN).seam_line.inner_mm / IN == pytest.approx(
        32 / (2 * math.pi)
    )


@pytest.mark.parametrize("values", [{"waist_mm": 0}, {"length_mm": 0}, {"part": 0}])
def test_a_circle_skirt_of_nothing_is_refused(values):
    with pytest.raises(Faults):
        circle_skirt(**({"waist_mm": 600, "length_mm": 900, "part": 1} | values))


@pytest.mark.parametrize(("part", "pieces"), [(1, 2), (1 / 2, 1), (3 / 4, 3)])
def test_the_drawn_outline_measures_what_was_asked(part, pieces):
    skirt = circle_skirt(waist_mm=600, length_mm=900, part=part).seam_line
    outline = Polygon(skirt.divided(pieces).outline())
    assert outline.is_valid
    assert outline.exterior.is_ccw
    area = math.pi * part * (skirt.outer_mm**2 - skirt.inner_mm**2) / pieces
    assert outline.area == pytest.approx(area, rel=1e-3)
    assert outline.length == pytest.approx((skirt.hem_mm + 600) / pieces + 2 * 900, rel=1e-3)


def make_gores(shares=None, **values):
    asked = {"waist_mm": 600, "hip_mm": 900, "hem_mm": 2400, "length_mm": 1000, "hip_depth_mm": 180}
    return gores(shares or equal_shares(6), **(asked | values))


def test_equal_gores_share_waist_and_hem_and_are_as_long_at_the_sides_as_in_the_middle():
    (gore,) = make_gores()
    assert (gore.piece.top_mm, gore.piece.hem_mm) == pytest.approx((100, 400))
    outline = gore.piece.outline()
    edges = sorted(math.dist(one, other) for one, other in pairwise([*outline, outline[0]]))
    assert edges[-2:] == pytest.approx([1000, 1000])
    assert edges[-3] < 50
    assert gore.piece.length_mm == pytest.approx(1000)


def test_the_curve_of_a_gore_is_what_its_corners_hang_above_its_middle():
    # By hand: 100 at the waist, 400 at the hem, 1000 long: opening 0.3, radii 333.3 and 1333.3;
    # 1333.3 × (1 − cos 0.15) = 14.97 and 333.3 × (1 − cos 0.15) = 3.74.
    (gore,) = make_gores()
    assert gore.piece.turn == pytest.approx(0.3)
    assert gore.piece.hem_curve_mm == pytest.approx(14.97, abs=0.01)
    assert gore.piece.top_curve_mm == pytest.approx(3.74, abs=0.01)


def test_a_gore_too_straight_for_the_hip_swells_at_its_edges():
    # By hand: at 180 below the waist the gore is 100 + 0.3 × 180 = 154 wide. A hip of 900 asks for 150 of it;
    # one of 1020 for 170: 16 more, 8 at each edge.
    assert make_gores()[0].hip_room_mm == pytest.approx(4)
    assert make_gores()[0].swell_each_mm == 0
    assert make_gores(hip_mm=1020)[0].swell_each_mm == pytest.approx(8)


def test_one_straight_edge_lies_on_the_grain_and_the_other_takes_all_the_flare():
    half = (GoreShare(name="side", waist=0.5, hip=0.5, hem=0.5, cut=2, straight_edge=True),)
    (gore,) = make_gores(half, hem_mm=1400, hip_mm=1020)
    points = gore.piece.outline(straight_edge=gore.straight_edge)
    left = min(x for x, _ in points)
    straight = [y for x, y in points if math.isclose(x, left, abs_tol=1e-9)]
    assert max(straight) - min(straight) == pytest.approx(1000)
    assert Polygon(points).area == pytest.approx(Polygon(gore.piece.outline()).area)
    assert gore.swell_each_mm == pytest.approx(510 - gore.piece.width_at_mm(180))


def test_unequal_shares_come_to_the_whole_skirt():
    # Invented for an 1870s walking skirt: narrow front, straight-edged sides, most of the hem behind.
    shares = (
        GoreShare(name="front", waist=0.20, hip=0.22, hem=0.16),
        GoreShare(name="side", waist=0.15, hip=0.17, hem=0.17, cut=2, straight_edge=True),
        GoreShare(name="back", waist=0.25, hip=0.22, hem=0.25, cut=2),
    )
    cut = make_gores(shares)
    totals = [
        sum(gore.piece.top_mm * share.cut for gore, share in zip(cut, shares, strict=True)),
        sum(gore.hip_mm * share.cut for gore, share in zip(cut, shares, strict=True)),
        sum(gore.piece.hem_mm * share.cut for gore, share in zip(cut, shares, strict=True)),
    ]
    assert totals == pytest.approx([600, 900, 2400])


def test_a_front_longer_than_the_back_is_no_fault():
    # S. Rosenfeld, The Practical Designer, 1918, lesson 84: stout five-gore, waist 30, hip 45, front 44,
    # side 40, back 39 in. The hem and the shares are ours.
    shares = (
        GoreShare(name="front", waist=0.2, hip=0.2, hem=0.2, length_mm=44 * IN),
        GoreShare(name="side", waist=0.2, hip=0.2, hem=0.2, cut=2, length_mm=40 * IN),
        GoreShare(name="back", waist=0.2, hip=0.2, hem=0.2, cut=2, length_mm=39 * IN),
    )
    cut = gores(shares, waist_mm=30 * IN, hip_mm=45 * IN, hem_mm=90 * IN, length_mm=40 * IN)
    assert [gore.piece.length_mm / IN for gore in cut] == pytest.approx([44, 40, 39])


@pytest.mark.parametrize(
    ("shares", "values", "where"),
    [
        ((GoreShare(name="front", waist=0.5, hip=1, hem=1),), {}, "shares[0].waist"),
        (None, {"hem_mm": 600}, "gore"),
        (None, {"hip_depth_mm": 1000}, "length"),
        (None, {"waist_mm": 0}, "waist"),
        (None, {"hem_mm": 1e5}, "gore"),
        ((GoreShare(name="front", waist=0.1, hip=0.1, hem=0.1, cut=10, length_mm=7 * IN),), {}, "front"),
    ],
)
def test_gores_that_cannot_be_are_named(shares, values, where):
    with pytest.raises(Faults) as refused:
        make_gores(shares, **values)
    assert [fault.where for fault in refused.value.faults] == [where]


def test_a_seam_of_two_lengths_is_named():
    def make(back_in: float):
        shares = [
            GoreShare(name=name, waist=0.25, hip=0.25, hem=0.25, cut=2, length_mm=long_in * IN)
            for name, long_in in (("front", 41), ("back", back_in))
        ]
        return gores(shares, waist_mm=30 * IN, hip_mm=45 * IN, hem_mm=90 * IN, length_mm=41 * IN)

    ((one, other),) = uneven_seams(make(42))
    assert (one.name, other.name) == ("front", "back")
    assert list(uneven_seams(make(41.1))) == []  # to a chalk line they are alike


def test_a_circle_is_chalked_an_allowance_outside_its_seam_line():
    # By hand: a half circle for 26 in that laps over by 1: 27 ÷ π = 8.594 in; chalked 1/2 in within, and the
    # hem 1/2 in beyond 8.594 + 40.
    skirt = circle_skirt(waist_mm=26 * IN, length_mm=40 * IN, part=0.5, allowance_mm=IN / 2, opening_mm=IN)
    assert skirt.seam_line.inner_mm / IN == pytest.approx(27 / math.pi)
    assert skirt.chalk_inner_mm / IN == pytest.approx(8.594 - 0.5, abs=1e-3)
    assert skirt.chalk_outer_mm / IN == pytest.approx(8.594 + 40.5, abs=1e-3)
