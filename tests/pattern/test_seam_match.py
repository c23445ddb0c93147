"""Edges sewn together, stretch by stretch, and where notches come along both; by hand."""

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.seam_match import SeamJoin, SeamMatch, Stretch, notches, sleeve_seam


@pytest.mark.parametrize(
    ("stretch", "joined", "off_mm"),
    [
        (Stretch(name="side", longer_mm=400, shorter_mm=398), SeamJoin.MATCHES, 2),
        (Stretch(name="side", longer_mm=400, shorter_mm=396), SeamJoin.DIFFERS, 4),
        (Stretch(name="side", longer_mm=396, shorter_mm=400), SeamJoin.DIFFERS, -4),
        (Stretch(name="shoulder", longer_mm=132, shorter_mm=120, ease_mm=12), SeamJoin.EASED, 0),
        (Stretch(name="shoulder", longer_mm=140, shorter_mm=120, ease_mm=12), SeamJoin.DIFFERS, 8),
        (Stretch(name="skirt", longer_mm=900, shorter_mm=300, ratio=3), SeamJoin.GATHERED, 0),
        (Stretch(name="skirt", longer_mm=800, shorter_mm=300, ratio=3), SeamJoin.DIFFERS, -100),
    ],
)
def test_an_edge_matches_is_eased_or_gathered_or_differs(stretch, joined, off_mm):
    assert (stretch.joined, stretch.off_mm) == (joined, off_mm)


def test_a_sleeve_head_is_judged_front_and_back_apart():
    # Its ease is right in all, 25 for 25, and yet wrong on either side of the pitch points.
    seam = sleeve_seam(
        head_front_mm=205, head_back_mm=260, armhole_front_mm=200, armhole_back_mm=240,
        ease_front_mm=10, ease_back_mm=15,
    )  # fmt: skip
    assert seam.longer_mm - seam.shorter_mm == 25
    assert [(stretch.name, stretch.off_mm) for stretch in seam.flagged] == [("front", -5), ("back", 5)]


def test_the_gathered_top_is_kept_apart_from_the_plain_parts():
    seam = sleeve_seam(
        head_front_mm=300, head_back_mm=340, armhole_front_mm=200, armhole_back_mm=240,
        gathered_mm=300, gathered_into_mm=100,
    )  # fmt: skip
    assert [(one.name, one.longer_mm, one.shorter_mm) for one in seam.stretches] == [
        ("front", 150, 150),
        ("top", 300, 100),
        ("back", 190, 190),
    ]
    assert seam.flagged == ()


@pytest.mark.parametrize("gathered", [{"gathered_mm": 700, "gathered_into_mm": 100}, {"gathered_mm": 100}])
def test_more_cannot_be_gathered_than_there_is(gathered):
    with pytest.raises(Faults):
        sleeve_seam(
            head_front_mm=300, head_back_mm=340, armhole_front_mm=200, armhole_back_mm=240, **gathered
        )


def test_notches_divide_both_edges_of_a_stretch_alike():
    plain = Stretch(name="plain", longer_mm=200, shorter_mm=200)
    gathered = Stretch(name="gathered", longer_mm=600, shorter_mm=200, ratio=3)
    seam = SeamMatch(name="skirt to band", stretches=(plain, gathered))
    assert [(notch.on_longer_mm, notch.on_shorter_mm) for notch in notches(seam)] == [(200, 200)]
    within = notches(seam, every_mm=100)
    assert [(notch.on_longer_mm, notch.on_shorter_mm) for notch in within] == [
        (100, 100),
        (200, 200),
        (500, 300),
    ]
