"""Seams, the sleeve and the alteration plan read the newest version of a pattern that was begun."""

from dataclasses import replace

import pytest
from django.utils import timezone

from fitting.outfits.models.garment import Ease
from fitting.pattern.actions import begin_pattern
from fitting.pattern.loading.facts import known_of
from fitting.pattern.loading.start import plates_of
from tests.makers.traced_bodice import make_traced_bodice
from tests.makers.working_pattern import FRONT, PATTERN, make_version

EASE_MM = 6.0


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def page(client, garment, kind="seams"):
    answer = client.get(f"/garments/{garment.pk}/work/{kind}/")
    assert answer.context["sheet"].errors == {}
    return answer


@pytest.mark.django_db
def test_seams_are_walked_on_the_newest_version_with_the_ease_it_says(maker, garment):
    eased = replace(PATTERN, seams=(replace(PATTERN.seams[0], ease_mm=EASE_MM),))
    make_version(garment, eased)
    answer = page(maker, garment)
    assert "working pattern, version 1 of" in answer.content.decode()
    (row,) = answer.context["worked"].grids[0].rows
    (name,), (first,), (second,), (difference,), (allowed,), _ = row
    assert name == "1 · front, side – back, side"
    assert first == pytest.approx(FRONT.measures.edges["side"], abs=0.01)
    assert (difference, allowed) == (pytest.approx(0, abs=0.01), pytest.approx(EASE_MM, abs=0.05))
    assert second == pytest.approx(first, abs=0.01)


@pytest.mark.django_db
def test_the_plan_is_made_against_the_girth_of_the_version(maker, people, garment):
    """The waist lies at 2/3 of the curve: 300 + 60 × 2/3 × 1/3 = 313 1/3 mm, and 263 1/3 on the back. Twice
    both are 1153 1/3; the wearer's 26 in are 660.4, without ease.
    """
    maker.post(f"/garments/{garment.pk}/compare/")
    make_version(garment)
    known = known_of(garment, by=people.maker, at=timezone.now())
    assert known.off["waist"].difference_mm == pytest.approx(1153.333 - 660.4, abs=0.01)
    assert known.off["waist"].verdict == "too large"
    assert set(known.shapes) == {"front", "back"}


@pytest.mark.django_db
def test_the_sleeve_is_still_walked_once_the_pattern_is_begun(maker, people, garment):
    before = known_of(garment, by=people.maker, at=timezone.now()).walkable
    drawn = before.walked("as drawn", before.allowed())
    begin_pattern(garment, plates_of(garment)[:1], on=None, by=people.maker, at=timezone.now())
    after = known_of(garment, by=people.maker, at=timezone.now()).walkable
    sleeve = after.sleeve()
    was = next(one for one in drawn if one.join.one == sleeve.join.one)
    assert sleeve.one.length_mm == pytest.approx(was.one.length_mm, abs=0.5)
    assert page(maker, garment, "sleeve").context["sheet"].initial


@pytest.mark.django_db
def test_at_a_loose_level_more_than_enough_is_no_fault_of_the_version(maker, people, garment):
    Ease.objects.create(garment=garment, line="waist", fit="loose", ease_um=0, ease_text="0 in")
    maker.post(f"/garments/{garment.pk}/compare/")
    make_version(garment)
    off = known_of(garment, by=people.maker, at=timezone.now()).off["waist"]
    assert off.difference_mm > 400
    assert (off.verdict, off.wants_altering) == ("fits as drawn", False)
