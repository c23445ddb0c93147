"""What a working pattern begins with: the pieces of its plates, enlarged."""

import pytest
from django.utils import timezone

from catalogue.plates.models.plate import Plate
from fitting.pattern.loading.start import beginning_of, plates_of
from tests.makers.rows import um
from tests.makers.traced_bodice import make_traced_bodice


def begin(people, allowance: str, text: str = ""):
    garment = make_traced_bodice(people.workroom)
    drawn = {"allowance_um": um(text), "allowance_text": text} if text else {}
    Plate.objects.filter(pk=garment.plate_id).update(allowance=allowance, **drawn)
    return beginning_of(garment, plates_of(garment), by=people.maker, at=timezone.now())


@pytest.mark.django_db
def test_allowance_that_was_drawn_is_taken_off_and_where_it_is_not_known_that_is_said(people):
    drawn_without = begin(people, Plate.AllowanceKind.NONE)
    not_known = begin(people, Plate.AllowanceKind.UNKNOWN)
    assert drawn_without.doubts == ()
    assert len(not_known.doubts) == len(not_known.pattern.pieces)
    assert not_known.pattern.girths() == pytest.approx(drawn_without.pattern.girths())
    drawn_with = begin(people, Plate.AllowanceKind.INCLUDED, "1/4 in")
    under_arm, less = (one.pattern.piece("under-arm") for one in (drawn_without, drawn_with))
    # An edge either side of its waist, neither of them a fold: 1/4 in is lost at each, measured along a level
    # that its seams cross not quite squarely.
    lost_mm = under_arm.measures.levels["waist"] - less.measures.levels["waist"]
    assert lost_mm == pytest.approx(2 * 6.35, abs=0.7)
