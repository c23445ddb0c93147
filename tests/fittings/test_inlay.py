"""What can still be let out of a cut seam: 2 · (cut allowance − 1/4 in), common practice, no source."""

import pytest

from fitting.fittings.calculation import inlay_left

IN = 25.4


@pytest.mark.parametrize(
    ("cut_with_in", "edges", "left_in"),
    [(1, 2, 1.5), (0.75, 2, 1.0), (0.5, 4, 1.0), (0.25, 2, 0.0)],
)
def test_each_edge_gives_its_allowance_less_a_quarter_inch(cut_with_in, edges, left_in):
    inlay = inlay_left(cut_with_mm=cut_with_in * IN, edges=edges)
    assert inlay.left_mm == pytest.approx(left_in * IN)
    assert inlay.left_each_mm * edges == pytest.approx(inlay.left_mm)


def test_what_was_let_out_before_is_gone_and_what_was_taken_in_is_back():
    assert inlay_left(cut_with_mm=IN, edges=2, let_out_mm=IN).left_mm == pytest.approx(0.5 * IN)
    assert inlay_left(cut_with_mm=IN, edges=2, let_out_mm=-0.5 * IN).left_mm == pytest.approx(2 * IN)


@pytest.mark.parametrize(("asked_in", "is_enough"), [(1.5, True), (1.4, True), (1.5625, False)])
def test_a_pinned_let_out_above_what_is_left_asks_for_another_piece(asked_in, is_enough):
    assert inlay_left(cut_with_mm=IN, edges=2).is_enough_for(asked_in * IN) is is_enough


def test_a_seam_that_was_let_out_too_far_has_nothing_to_give():
    assert not inlay_left(cut_with_mm=0.25 * IN, edges=2, let_out_mm=3).is_enough_for(0.1)


def test_a_seam_without_edges_is_refused():
    with pytest.raises(ValueError, match="at least one edge"):
        inlay_left(cut_with_mm=IN, edges=0)
