"""A garment's working pattern in versions: begun from its plate, changed by steps, gone back on."""

from dataclasses import replace

import pytest
from django.utils import timezone

from catalogue.lengths.calculation.errors import Faults
from catalogue.plates.models.plate import Plate
from catalogue.tracing.models import TracedPiece
from fitting.pattern.actions import MadeMeanwhile, begin_pattern, go_back, take_step
from fitting.pattern.calculation.working.girths import Alter, LevelShare
from fitting.pattern.calculation.working.grading import Grade
from fitting.pattern.calculation.working.parting import Lengthen
from fitting.pattern.calculation.working.sleeves import parts_of
from fitting.pattern.calculation.working.steps import take
from fitting.pattern.exchange.kept_pattern import asked_of_kept, pattern_of_kept, pattern_to_kept
from fitting.pattern.loading.start import plates_of
from fitting.pattern.loading.working import what_has_changed, working_pattern
from fitting.pattern.models import WorkingVersion
from fitting.wearers.models import Take
from tests.makers.rows import um
from tests.makers.traced_bodice import make_traced_bodice

pytestmark = pytest.mark.django_db


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def first(garment, people):
    return begin_pattern(garment, plates_of(garment), on=None, by=people.maker, at=timezone.now())


def a_step(pattern, by_mm=20.0):
    piece = pattern.pieces[0]
    return Lengthen(pieces=(piece.name,), line=piece.levels["waist"], by_mm=by_mm)


def test_it_begins_with_the_traced_pieces_at_full_size_and_their_seams(first, garment):
    pattern = working_pattern(garment).pattern
    assert [piece.name for piece in pattern.pieces] == [piece.name for piece in garment.plate.pieces.all()]
    assert first.number == 1
    assert {"bust", "waist", "upper arm"} <= set(pattern.girths())
    assert pattern.seams
    assert all(pattern.off_mm(seam) == pytest.approx(seam.ease_mm) for seam in pattern.seams)


def test_a_step_makes_the_next_version_and_leaves_the_one_before(first, garment, people):
    before = pattern_of_kept(first.pattern)
    second = take_step(first, a_step(before), by=people.maker, at=timezone.now())
    assert (second.number, second.made_from) == (2, first)
    assert "lengthened" in second.said
    assert asked_of_kept({"step": second.step, "asked": second.asked}) == a_step(before)
    first.refresh_from_db()
    assert pattern_of_kept(first.pattern) == before
    name = before.pieces[0].name
    was, now = second.changed[name]["area_mm2"]
    assert now > was


def test_what_is_kept_is_read_back_as_the_very_same_pattern(first):
    pattern = pattern_of_kept(first.pattern)
    changed = take(pattern, a_step(pattern)).pattern
    assert pattern_of_kept(pattern_to_kept(changed)) == changed


def test_going_back_is_a_version_of_its_own(first, garment, people):
    second = take_step(first, a_step(pattern_of_kept(first.pattern)), by=people.maker, at=timezone.now())
    third = go_back(second, first, by=people.maker, at=timezone.now())
    assert (third.number, third.pattern) == (3, first.pattern)
    assert garment.pattern_versions.count() == 3


def test_of_two_who_step_at_once_one_is_told_of_the_other(first, garment, people):
    step = a_step(pattern_of_kept(first.pattern))
    theirs = take_step(first, step, by=people.keeper, at=timezone.now())
    with pytest.raises(MadeMeanwhile) as told:
        take_step(first, step, by=people.maker, at=timezone.now())
    assert told.value.newest == theirs
    assert garment.pattern_versions.count() == 2


def test_a_step_that_cannot_be_taken_leaves_everything_as_it_is(first, garment, people):
    far = replace(a_step(pattern_of_kept(first.pattern)), line=(-5000j, 100 - 5000j))
    with pytest.raises(Faults):
        take_step(first, far, by=people.maker, at=timezone.now())
    assert garment.pattern_versions.count() == 1


def test_a_plate_traced_again_and_new_measures_make_it_out_of_date(first, garment, people):
    def changes():
        return what_has_changed(WorkingVersion.objects.get(pk=first.pk), by=people.maker, at=timezone.now())

    assert changes() == []
    traced = TracedPiece.objects.filter(piece__plate=garment.plate_id).first()
    traced.nodes[0]["x"] += 3
    traced.save()
    [of_plate] = changes()
    assert "plate" in of_plate
    Take.objects.filter(line="bust").update(value_um=um("39 in"), value_text="39 in")
    assert len(changes()) == 2


def test_edges_that_bear_one_name_on_the_plate_have_their_own_on_the_pattern(garment, people):
    """Tracing takes edges of one name together; of a pattern each can be trued and sewn by itself."""
    traced = TracedPiece.objects.filter(piece__plate=garment.plate_id).first()
    named = [node for node in traced.nodes if node.get("edge")]
    named[2]["edge"] = named[0]["edge"]
    traced.save()
    begin_pattern(garment, plates_of(garment)[:1], on=None, by=people.maker, at=timezone.now())
    piece = working_pattern(garment).pattern.piece(traced.piece.name)
    assert {named[0]["edge"], f"{named[0]['edge']} 2"} <= set(piece.edges)


def test_a_plate_that_nobody_traced_gives_boxes_that_say_so(garment, people):
    TracedPiece.objects.filter(piece__plate=garment.plate_id).delete()
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
    version = begin_pattern(garment, [plate], on=None, by=people.maker, at=timezone.now())
    pattern = pattern_of_kept(version.pattern)
    assert all(piece.is_box for piece in pattern.pieces)
    assert all("not traced" in sentence for sentence in version.broke)


def of_side_seam(pattern, by_mm):
    """What each level comes to, by so much more, and the side seam's halves that give it."""
    side = next(seam for seam in pattern.seams if "side" in seam.edges[0])
    ends = zip(side.pieces, side.edges, strict=True)
    shares = tuple(LevelShare(piece=piece, edge=edge, share=0.5) for piece, edge in ends)
    return {level: pattern.girths()[level] + by_mm for level in ("bust", "waist")}, shares


def test_graded_two_inches_larger_seams_and_sleeve_keep_their_ease(first):
    """50.8 mm over four edges of the side seams: 12.7 mm at each. Every part of the head is as it was."""
    pattern = pattern_of_kept(first.pattern)
    wanted, shares = of_side_seam(pattern, 50.8)
    outcome = take(pattern, Grade(girths_mm=wanted, lengths_mm={}, seams=shares))
    graded = outcome.pattern
    for level, mm in wanted.items():
        assert graded.girths()[level] == pytest.approx(mm, abs=0.01)
    for seam in graded.seams:
        assert graded.off_mm(seam) == pytest.approx(seam.ease_mm, abs=0.5)
    [sleeve] = graded.sleeves
    assert parts_of(graded, sleeve.join) == pytest.approx(sleeve.eases_mm, abs=0.5)
    assert outcome.broke == ()


def test_a_sleeve_that_cannot_follow_is_told_of_and_left(first):
    """Half a metre more at the side seams: no head reaches round that armhole."""
    pattern = pattern_of_kept(first.pattern)
    wanted, shares = of_side_seam(pattern, 500.0)
    outcome = take(pattern, Grade(girths_mm=wanted, lengths_mm={}, seams=shares))
    assert any("armhole" in sentence for sentence in outcome.broke)


def test_a_bodice_altered_says_that_its_sleeve_no_longer_meets(first):
    pattern = pattern_of_kept(first.pattern)
    _, shares = of_side_seam(pattern, 0.0)
    altered = take(pattern, Alter(changes_mm={"bust": 80.0}, seams=shares))
    assert any("armhole" in sentence for sentence in altered.broke)
