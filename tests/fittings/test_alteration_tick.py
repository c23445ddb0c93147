"""An alteration goes from layer to layer; the pattern gets a new version; inlay limits a let-out."""

import datetime

import pytest
from django.utils import timezone

from fitting.fittings.loading.alterations import alterations_of
from tests.makers.fittings import make_alteration, make_inlay
from tests.makers.rows import make_garment, make_outfit, make_wearer, um

IN = 25.4


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def garment(people):
    return make_garment(make_outfit(people.workroom, wearer=make_wearer(people.workroom)))


def test_a_tick_is_the_day_it_was_done_and_can_be_taken_back(maker, garment):
    alteration = make_alteration(garment)
    maker.post(f"/alterations/{alteration.pk}/tick/", {"part": "toile"})
    assert alteration.by_part["toile"].done_on == timezone.localdate()
    assert alteration.by_part["paper"].done_on is None
    maker.post(f"/alterations/{alteration.pk}/tick/", {"part": "toile", "undo": "1"})
    assert alteration.by_part["toile"].done_on is None


def test_measures_taken_over_a_garment_grow_stale_when_it_is_altered_in_cloth(maker, garment):
    alteration = make_alteration(garment)
    maker.post(f"/alterations/{alteration.pk}/tick/", {"part": "paper"})
    garment.refresh_from_db()
    assert garment.made_on is None
    maker.post(f"/alterations/{alteration.pk}/tick/", {"part": "toile"})
    garment.refresh_from_db()
    assert garment.made_on == timezone.localdate()


def test_a_layer_that_need_not_be_reached_has_no_tick(garment):
    make_alteration(garment, parts=("paper", "sleeve"))
    (shown,) = alterations_of(garment).open
    assert [tick.part if tick else None for tick in shown.ticks] == [
        "paper", None, None, None, None, None, "sleeve",
    ]  # fmt: skip


def test_the_pattern_gets_a_version_for_each_day_its_paper_was_altered(garment):
    assert alterations_of(garment).version.number == 1
    days = [datetime.date(2026, 11, 3), datetime.date(2026, 11, 3), datetime.date(2026, 11, 9)]
    for day in days:
        make_alteration(garment, parts=()).parts.create(part="paper", done_on=day)
    version = alterations_of(garment).version
    assert (version.number, version.day) == (3, datetime.date(2026, 11, 9))


@pytest.mark.parametrize(("each", "is_enough"), [("3/4 in", True), ("13/16 in", False)])
def test_a_let_out_is_checked_against_the_inlay_left(garment, each, is_enough):
    make_inlay(garment, "1 in", edges=2)  # leaves 2 × 3/4 in
    make_alteration(garment, amount_um=um(each), amount_text=each)
    (shown,) = alterations_of(garment).open
    assert shown.inlay_mm == pytest.approx(1.5 * IN)
    assert shown.is_enough is is_enough


def test_two_let_outs_of_one_seam_share_its_inlay(garment):
    make_inlay(garment, "1 in", edges=2)
    for _ in range(2):
        make_alteration(garment, amount_um=um("1/2 in"), amount_text="1/2 in")
    assert [one.is_enough for one in alterations_of(garment).open] == [True, False]


def test_what_reached_the_cloth_is_reckoned_off_and_what_was_taken_in_comes_back(garment):
    make_inlay(garment, "1 in", edges=2)
    done = datetime.date(2026, 11, 9)
    make_alteration(garment, parts=()).parts.create(part="outer", done_on=done)
    (inlay,) = alterations_of(garment).inlays
    assert inlay.left.left_mm == pytest.approx(1.0 * IN)
    make_alteration(garment, parts=(), what="take in").parts.create(part="outer", done_on=done)
    fresh = type(garment).objects.get(pk=garment.pk)
    assert alterations_of(fresh).inlays[0].left.left_mm == pytest.approx(1.5 * IN)


def test_the_page_says_recut_or_piece_where_the_inlay_is_short(maker, garment):
    make_inlay(garment, "1/2 in", edges=2)
    sent = {"what": "let out", "edge": "Side  seam", "edges": 2, "amount_um": "1/2", "parts": ["outer"]}
    page = maker.post(f"/garments/{garment.pk}/alterations/add/", sent, follow=True).content.decode()
    assert "recut the piece, or piece it" in page
    assert "only 1/2 in of inlay left in all" in page


def test_inlays_are_typed_in_a_table(maker, garment):
    sent = {"inlays-TOTAL_FORMS": "1", "inlays-INITIAL_FORMS": "0"}
    row = {"inlays-0-edge": "centre back", "inlays-0-edges": "2", "inlays-0-allowance_um": "1 1/2"}
    maker.post(f"/garments/{garment.pk}/inlays/", sent | row)
    assert str(garment.inlays.get()) == "centre back: 1 1/2 in"


def test_changing_the_layers_keeps_the_ticks_of_those_that_stay(maker, garment):
    alteration = make_alteration(garment)
    maker.post(f"/alterations/{alteration.pk}/tick/", {"part": "paper"})
    sent = {"what": "let out", "edge": "side seam", "edges": 2, "amount_um": "1/4 in"}
    maker.post(f"/alterations/{alteration.pk}/change/", {**sent, "parts": ["paper", "outer"]})
    assert {part.part: bool(part.done_on) for part in alteration.parts.all()} == {
        "paper": True,
        "outer": False,
    }
