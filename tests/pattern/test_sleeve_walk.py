"""A sleeve head against its armhole from the pitch points: lengths by hand, lines for curves."""

import pytest

from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.seam_match import SeamJoin
from fitting.pattern.calculation.seam_walk import SeamSide, SeamTolerance, TracedEdge
from fitting.pattern.calculation.sleeve_walk import NotPitched, is_sleeve, walk_sleeve

JOIN = GradingJoin(one=(("sleeve", "sleeve head"),), other=(("front", "armhole"), ("back", "armhole")))


def edge(piece, name, length, *notches, before, after):
    line = (0j, complex(length / 2, -100), complex(length, 0))
    return TracedEdge(
        piece=piece, name=name, before=before, after=after, line=line, length_mm=length, notches_mm=notches
    )


def armhole(front=(150,), back=(170,), *, is_ring=True):
    """250 mm down the front, 240 down the back; notches as far from the shoulder as said."""
    down = edge("front", "armhole", 250, *front, before="shoulder", after="side seam")
    up = edge("back", "armhole", 240, *(240 - at for at in back[::-1]), before="side seam", after="shoulder")
    return SeamSide(edges=(down, up), is_ring=is_ring)


def head(*notches):
    return SeamSide(
        edges=(edge("sleeve", "sleeve head", 520, *notches, before="front of seam", after="back of seam"),)
    )


def told(seam):
    return [(one.name, one.longer_mm, one.shorter_mm) for one in seam.seam.stretches]


def test_front_and_back_are_apart_from_the_pitch_points_and_the_rest_is_beneath():
    seam = walk_sleeve(JOIN, head(100, 265, 450), armhole(), SeamTolerance(ease_mm=32))
    assert told(seam) == [("front", 165, 150), ("back", 185, 170), ("under", 170, 170)]
    assert [one.joined for one in seam.seam.stretches] == [SeamJoin.EASED, SeamJoin.EASED, SeamJoin.MATCHES]


def test_ease_right_in_all_and_wrong_on_either_side_is_flagged():
    seam = walk_sleeve(JOIN, head(100, 255, 450), armhole(), SeamTolerance(ease_mm=30))
    assert [one.name for one in seam.seam.flagged] == ["front", "back"]


@pytest.mark.parametrize("turned", [True, False])
def test_it_does_not_matter_which_way_the_edges_were_traced(turned):
    one, other = head(100, 265, 450), armhole()
    seam = walk_sleeve(JOIN, one.turned if turned else one, other.turned.starting_at(1), SeamTolerance())
    assert told(seam) == [("front", 165, 150), ("back", 185, 170), ("under", 170, 170)]


def test_the_gathered_top_is_apart_from_the_plain_parts():
    seam = walk_sleeve(JOIN, head(100, 160, 265, 400, 460), armhole((90, 150), (100, 160)), SeamTolerance())
    assert told(seam) == [
        ("front", 60, 60), ("top", 240, 190), ("back", 60, 60), ("under", 160, 180),
    ]  # fmt: skip
    assert seam.seam.stretches[1].ratio == pytest.approx(240 / 190)
    assert [one.name for one in seam.seam.flagged] == ["under"]


def test_two_notches_on_the_head_are_its_pitch_points_and_its_top_the_highest_place():
    assert told(walk_sleeve(JOIN, head(110, 430), armhole(), SeamTolerance())) == [
        ("front", 150, 150), ("back", 170, 170), ("under", 200, 170),
    ]  # fmt: skip


def test_a_sleeve_of_two_pieces_is_pitched_at_its_seams():
    upper = edge("upper sleeve", "upper head", 340, 160, before="fore arm seam", after="hind arm seam")
    under = edge("under sleeve", "under head", 172, before="hind arm seam", after="fore arm seam")
    seam = walk_sleeve(
        JOIN, SeamSide(edges=(under, upper), is_ring=True), armhole(), SeamTolerance(ease_mm=20)
    )
    assert told(seam) == [("front", 160, 150), ("back", 180, 170), ("under", 172, 170)]
    assert seam.seam.flagged == ()


@pytest.mark.parametrize(
    ("one", "other", "word"),
    [
        (head(265), armhole(), "sleeve head"),
        (head(100, 265, 450), armhole(back=()), "front and back"),
        (head(100, 265, 450), armhole(is_ring=False), "shoulder"),
    ],
)
def test_what_is_missing_is_named(one, other, word):
    with pytest.raises(NotPitched, match=word):
        walk_sleeve(JOIN, one, other, SeamTolerance())


def test_a_sleeve_is_known_by_the_names_of_its_edges():
    assert is_sleeve(JOIN)
    assert not is_sleeve(GradingJoin(one=(("front", "side seam"),), other=(("back", "side seam"),)))
