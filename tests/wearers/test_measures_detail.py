"""One set: what its takes come to; changed, confirmed, deleted."""

import datetime

import pytest

from fitting.wearers.models import Measures, Take
from tests.makers.rows import make_comparison, make_garment, make_measures, make_outfit, make_wearer, um


@pytest.fixture
def measures(people) -> Measures:
    measures = make_measures(make_wearer(people.workroom), {"waist": "25 in"})
    for text in ("25 1/2 in", "26 in"):
        Take.objects.create(measures=measures, line="waist", value_um=um(text), value_text=text)
    return measures


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_the_mean_of_several_takes_is_shown_with_its_doubt(maker, measures):
    # 25, 25 1/2, 26 in: mean 25 1/2, s/√3 = 0.289 in, to the nearest sixteenth 5/16.
    page = maker.get(measures.get_absolute_url()).content.decode()
    assert "25 1/2 in</td>" in page
    assert "5/16 in</td>" in page
    assert "25 in · 25 1/2 in · 26 in" in page


def test_lengths_are_shown_in_the_readers_unit(maker, measures, people):
    people.maker.system = "cm"
    people.maker.save()
    assert "64.8 cm</td>" in maker.get(measures.get_absolute_url()).content.decode()


def test_checked_still_good_settles_what_is_stale_in_one_click(maker, measures, people):
    Measures.objects.update(taken_on=datetime.date.today() - datetime.timedelta(days=120))
    assert "120 days old" in maker.get(measures.get_absolute_url()).content.decode()
    maker.post(f"/measures/{measures.pk}/confirm/")
    assert "120 days old" not in maker.get(measures.get_absolute_url()).content.decode()
    measures.refresh_from_db()
    assert (measures.still_good_by, measures.still_good_on) == (people.maker, datetime.date.today())


def test_looking_does_not_confirm(maker, measures):
    assert maker.get(f"/measures/{measures.pk}/confirm/").status_code == 405


def test_a_slip_is_changed_and_the_other_takes_stay_as_they_were_typed(maker, measures):
    address = f"/measures/{measures.pk}/change/"
    (waist,) = maker.get(address).context["takes"].rows_asked()
    typed = {box.html_name: box.field.prepare_value(box.value()) for box in waist.boxes}
    assert list(typed.values()) == ["25 in", "25 1/2 in", "26 in"]
    maker.post(address, {"taken_on": "2026-11-02", "state": "over stays", **typed, "take_waist_3": "25 3/4"})
    assert list(measures.takes.values_list("value_text", flat=True)) == ["25 in", "25 1/2 in", "25 3/4 in"]
    assert Measures.objects.count() == 1


def test_deleting_asks_first_and_leaves_comparisons_their_figures(maker, measures, people):
    garment = make_garment(make_outfit(people.workroom, wearer=measures.wearer), measures=measures)
    comparison = make_comparison(garment)
    page = maker.get(f"/measures/{measures.pk}/delete/").content.decode()
    assert "3 takes" in page
    assert "Bodice" in page
    maker.post(f"/measures/{measures.pk}/delete/")
    assert not Measures.objects.exists()
    comparison.refresh_from_db()
    assert comparison.results["levels"]["waist"]["body_mm"] == 635.0
