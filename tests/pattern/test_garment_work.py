import pytest

from fitting.bench.actions import erase_wearer
from fitting.bench.loading.wearer_record import wearer_record
from fitting.laying.models import Lay
from fitting.pattern.calculation.sums.table import PAGES
from fitting.pattern.models import WorkNote
from tests.makers.kept_work import make_lay, make_work_note
from tests.makers.rows import NOON, make_garment, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def garment(people):
    return make_garment(make_outfit(people.workroom, wearer=make_wearer(people.workroom)))


def test_it_leads_to_every_sheet_to_what_was_kept_and_to_the_lay(maker, garment):
    note, lay = make_work_note(garment), make_lay(garment)
    page = maker.get(f"/garments/{garment.pk}/work/").content.decode()
    for kind in PAGES:
        assert f"/garments/{garment.pk}/work/{kind}/" in page
    for address in (note.get_absolute_url(), lay.get_absolute_url(), f"/garments/{garment.pk}/lays/add/"):
        assert address in page


@pytest.mark.parametrize("count", [1, 50])
def test_it_asks_as_often_for_many_kept_sheets_as_for_one(maker, garment, django_assert_num_queries, count):
    for _ in range(count):
        make_work_note(garment)
        make_lay(garment)
    with django_assert_num_queries(10):
        maker.get(f"/garments/{garment.pk}/work/")


def test_the_wearer_takes_it_away_and_it_is_erased_with_them(garment):
    make_work_note(garment, inputs={"finished": "28 in"})
    make_lay(garment)
    wearer = garment.outfit.wearer
    record = wearer_record(wearer, at=NOON)
    assert record["work_notes"][0]["inputs"] == {"finished": "28 in"}
    assert len(record["lays"]) == 1
    erase_wearer(wearer)
    assert not WorkNote.objects.exists()
    assert not Lay.objects.exists()
