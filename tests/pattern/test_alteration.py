"""The alteration plan: shares by hand and by rule, always the whole, flagged where it is too much."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.alteration import (
    AlterableSeam,
    LevelChange,
    alteration_plan,
    inlay_to_cut_mm,
    length_change,
    wants_altering,
)

IN = 25.4
SIDE = AlterableSeam(name="side", pieces=("front", "side back"))
SIDE_BACK = AlterableSeam(name="side back", pieces=("side back", "back"))


def make_levels(*changes_in: float) -> list[LevelChange]:
    return [
        LevelChange(level=f"level {at}", height_mm=200.0 * at, change_mm=change * IN)
        for at, change in enumerate(changes_in)
    ]


def each_in(plan, level="level 0") -> dict[str, float]:
    return {change.seam: change.each_mm / IN for change in plan.at_level(level)}


def test_two_inches_over_two_side_seams_are_half_an_inch_an_edge():
    # A quarter for each edge: arithmetic; the rule, from memory, USDA Home Economics Report 32, 1965.
    plan = alteration_plan(make_levels(2), [SIDE])
    assert each_in(plan) == pytest.approx({"side": 0.5})
    assert plan.flagged == ()


def test_the_next_seam_takes_what_the_first_should_not():
    plan = alteration_plan(make_levels(3), [SIDE, SIDE_BACK])
    assert each_in(plan) == pytest.approx({"side": 0.5, "side back": 0.25})


def test_what_no_edge_should_take_is_spread_and_flagged():
    # By hand: 5 in over 8 edges that should take 1/2 in each: 4 in, and the inch left is 1/8 in on each.
    plan = alteration_plan(make_levels(-5), [SIDE, SIDE_BACK])
    assert each_in(plan) == pytest.approx({"side": -0.625, "side back": -0.625})
    assert {change.seam for change in plan.flagged} == {"side", "side back"}


def test_a_waist_four_inches_too_small_gets_two_at_each_side():
    # Butterick dressmaking course, part 12: waist 34 on a pattern for hip 44 with waist 30.
    (change,) = alteration_plan(make_levels(34 - 30), [SIDE]).changes
    assert change.total_mm / change.edges * len(change.pieces) / IN == pytest.approx(2)
    assert change.is_above_limit


def _with_share(seam: AlterableSeam, share: float) -> AlterableSeam:
    return AlterableSeam(name=seam.name, pieces=seam.pieces, most_each_mm=seam.most_each_mm, share=share)


@given(
    st.lists(st.floats(-150, 150), min_size=1, max_size=6),
    st.lists(st.tuples(st.integers(1, 3), st.floats(0, 20)), min_size=1, max_size=4),
)
def test_the_plan_always_comes_to_the_difference(changes_mm, made_of):
    levels = [
        LevelChange(level=str(at), height_mm=float(at), change_mm=mm) for at, mm in enumerate(changes_mm)
    ]
    seams = [
        AlterableSeam(name=str(at), pieces=("piece",) * edges, most_each_mm=most)
        for at, (edges, most) in enumerate(made_of)
    ]
    plan = alteration_plan(levels, seams)
    for level in levels:
        total = sum(change.total_mm for change in plan.at_level(level.level))
        assert total == pytest.approx(level.change_mm, abs=1e-9)


def test_between_levels_the_new_edge_runs_fair():
    plan = alteration_plan(make_levels(1, 2, 2), [SIDE])
    along = [plan.along["side"].at(10.0 * step) / IN for step in range(41)]
    assert along[0] == pytest.approx(0.25)
    assert along[20:] == pytest.approx([0.5] * 21)
    assert along[:20] == sorted(along[:20])


@pytest.mark.parametrize(
    ("levels", "seams"),
    [
        (make_levels(1), []),
        (make_levels(1), [AlterableSeam(name="side", pieces=())]),
        (make_levels(1) * 2, [SIDE]),
        (make_levels(1), [_with_share(SIDE, 0.5), _with_share(SIDE_BACK, 0.6)]),
        (make_levels(1), [_with_share(SIDE, 1.0), SIDE_BACK]),
    ],
)
def test_a_plan_that_does_not_add_up_is_refused(levels, seams):
    with pytest.raises(Faults):
        alteration_plan(levels, seams)


@pytest.mark.parametrize(("difference_in", "inlay_in"), [(0, 0.75), (2, 0.75), (-1, 1.0)])
def test_an_inlay_holds_what_may_have_to_be_let_out(difference_in, inlay_in):
    # By hand: 1/2 in as usual, a doubt of 1 in, four edges; an inch too small asks for 1/4 in more on each.
    allowance_mm = inlay_to_cut_mm(
        usual_mm=IN / 2, difference_mm=difference_in * IN, expanded_doubt_mm=IN, edges=4
    )
    assert allowance_mm / IN == pytest.approx(inlay_in)


@pytest.mark.parametrize(
    ("change_in", "at_line_in", "at_hem_in", "fold_in"),
    [
        # Butterick, The New Dressmaker, 1921, pp. 22-23: 4 to 5 in half at the line, half at the hem.
        (4, 2, 2, 0),
        (-5, -2.5, -2.5, 1.25),
        (3, 3, 0, 0),
        # Robinson, Central Washington University, ch. 17: a fold to shorten takes half the amount.
        (-2, -2, 0, 1),
    ],
)
def test_a_large_change_of_length_is_made_half_at_the_hem(change_in, at_line_in, at_hem_in, fold_in):
    change = length_change(change_in * IN)
    found = (change.at_line_mm / IN, change.at_hem_mm / IN, change.fold_mm / IN)
    assert found == pytest.approx((at_line_in, at_hem_in, fold_in))


@pytest.mark.parametrize(
    ("chances", "is_altered"),
    [
        ((0, 0.99, 0.01, 0, 0), True),
        ((0.8, 0.2, 0, 0, 0), True),
        ((0, 0, 0, 0.2, 0.8), True),
        ((0, 0.747, 0.25, 0.003, 0), True),  # an inch short, within altering: add is the likeliest
        ((0, 0.44, 0.52, 0.04, 0), False),  # within altering, likeliest fits
        ((0, 0, 1, 0, 0), False),  # loose, with enough: it all counts as fits
        ((0.5, 0.5, 0, 0, 0), True),  # too close to call how much, but more in any case
        ((0.35, 0.35, 0.3, 0, 0), False),
    ],
)
def test_a_level_is_altered_where_it_is_known_which_way(chances, is_altered):
    assert wants_altering(chances) is is_altered


HIND_ARM = AlterableSeam(name="hind arm", pieces=("upper sleeve", "under sleeve"))


def test_the_change_of_an_arm_goes_onto_each_arm_whole():
    # A quarter of an inch at the elbow over the two edges of one hind arm seam: an eighth each, on both arms.
    elbow = LevelChange(level="elbow", height_mm=200, change_mm=IN / 4, limbs=2, seams=["hind arm"])
    bust = LevelChange(level="bust", height_mm=200, change_mm=IN, seams=["side"])
    plan = alteration_plan([bust, elbow], [SIDE, HIND_ARM])
    assert each_in(plan, "elbow") == pytest.approx({"hind arm": 0.125})
    assert each_in(plan, "bust") == pytest.approx({"side": 0.25})
    assert [one.total_mm / IN for one in plan.changes] == pytest.approx([1, 0.25])
    assert (plan.edges_at("elbow"), plan.edges_at("bust")) == (2, 4)


def test_an_inlay_counts_the_edges_that_the_plan_changes():
    # Two inches go on the four edges of the side; the side back takes nothing, and no inlay is counted on it.
    assert alteration_plan(make_levels(2), [SIDE, SIDE_BACK]).edges_at("level 0") == 4
    assert alteration_plan(make_levels(3), [SIDE, SIDE_BACK]).edges_at("level 0") == 8


def test_a_level_that_no_seam_goes_round_is_named():
    elbow = LevelChange(level="elbow", height_mm=200, change_mm=IN, limbs=2, seams=[])
    with pytest.raises(Faults) as refused:
        alteration_plan([elbow], [SIDE])
    assert [fault.where for fault in refused.value.faults] == ["elbow"]
