"""An archive of every format that people kept is read, taken in and explained: see `tests/test_kept.py`."""

import pytest
from django.db.models import Model, QuerySet
from django.test import Client

from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.taking import take_archive
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.models import Member, User, Workroom
from fitting.comparing.models import Comparison
from fitting.laying.models import Lay
from fitting.pattern.models import WorkNote
from fitting.site.demo import packed
from tests.test_kept import COMPARED, KEPT, LAID, NOTES, words


def kept_archive(number: int) -> OpenedArchive:
    return OpenedArchive(packed(KEPT / f"archive_{number}"))


@pytest.mark.parametrize(("kept", "name"), [(1, "bodice of the first archive"), (2, "back-laced bodice")])
def test_an_archive_is_taken_in(db, kept, name):
    empty = Workroom.objects.create(name="New house")
    taken = take_archive(kept_archive(kept), workroom=empty, overwrite=False, only_try=False)
    assert taken.added["sources"] == 1
    assert taken.added["reference garments"] == 2
    reference = empty.references.get(name=name)
    assert [one.value_text for one in reference.published_measures.all()] == ["26 in"]
    assert reference.photos.get().best_file()
    plate = reference.plates.get()
    front = plate.pieces.get(name="front")
    assert [one.reading_text for one in front.readings.all()] == ["3/4 in", "1 1/8 in"]
    assert plate.seams.get().how == "felled"
    assert plate.is_draft == hasattr(plate, "scan") == (kept == 2)
    if plate.is_draft:
        assert plate.scan.calibrations.count() == 2
        assert front.traced.marks[2]["count"] == 3
    assert empty.saved_filters.count() == 2


@pytest.fixture
def keeper(db, client) -> Client:
    """The keeper of a new workroom, into which the third archive was taken."""
    empty = Workroom.objects.create(name="New house")
    user = User.objects.create(username="keeper", system="cm")
    Member.objects.create(workroom=empty, user=user, role=Member.Role.KEEPER)
    take_archive(kept_archive(3), workroom=empty, overwrite=False, only_try=False)
    client.force_login(user)
    return client


def rows(model: type[Model]) -> QuerySet:
    return model._default_manager.of_workroom(Workroom.objects.get(name="New house"))


def test_the_third_archive_held_rows_of_every_kind(keeper):
    assert sum(rows(model).exists() for model in KINDS) == 46


# By hand. The doubt of the length by the second rules, in inches: read to 1/16 at 1:8, 8/16 ÷ √6; drawn to
# 1/16; scale 0.005 × 14; measured to 1/4: √(0.204² + 0.0625² + 0.07² + 0.25²) = 0.336 in = 0.9 cm.
def test_what_was_reckoned_stands_on_its_pages_out_of_the_third_archive(keeper):
    page = words(keeper, rows(Comparison).get().get_absolute_url())
    for row in COMPARED[:3]:
        assert row in page
    assert "nape to waist 35.6 cm 38.1 cm 0.0 cm 38.1 cm −2.5 cm ± 0.9 cm lengthen" in page
    assert LAID in words(keeper, rows(Lay).get().get_absolute_url())
    for note in rows(WorkNote):
        assert NOTES[note.kind] in words(keeper, note.get_absolute_url())
