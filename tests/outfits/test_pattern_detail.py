"""A pattern in hand: its parts, what was changed, and the garments that need it."""

import pytest

from tests.makers.rows import make_garment, make_outfit, make_pattern


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_it_names_the_garments_that_need_its_parts_and_what_it_lacks(maker, people):
    pattern = make_pattern(people.workroom, parts="Bodice, sleeve")
    make_garment(make_outfit(people.workroom), name="gown", needs_parts="bodice, collar")
    make_garment(make_outfit(people.workroom), name="coat", needs_parts="bodice", stage="cut")
    make_garment(make_outfit(people.workroom), name="hose", needs_parts="leg")
    (match,) = maker.get(f"/patterns/{pattern.pk}/").context["matches"]
    assert (match.garment.name, match.has, match.lacks) == ("gown", ("bodice",), ("collar",))


def test_what_was_changed_is_kept_with_its_day_and_part(maker, people):
    pattern = make_pattern(people.workroom)
    sent = {"changed_on": "2026-11-08", "part": "sleeve", "what": "Head raised"}
    page = maker.post(f"/patterns/{pattern.pk}/alter/", sent, follow=True).content.decode()
    assert "8 November 2026, sleeve: Head raised" in page
    assert "Head raised" in maker.get("/patterns/").content.decode()


def test_the_garment_names_the_patterns_that_could_help_best_first(maker, people):
    garment = make_garment(make_outfit(people.workroom), needs_parts="bodice, sleeve")
    make_pattern(people.workroom, name="Half of it", parts="sleeve")
    make_pattern(people.workroom, name="All of it", parts="bodice, sleeve")
    page = maker.get(f"/garments/{garment.pk}/").content.decode()
    assert page.index("All of it") < page.index("Half of it")


def test_a_reader_reads_it_and_is_offered_no_change(client, people):
    pattern = make_pattern(people.workroom)
    client.force_login(people.reader)
    assert f"/patterns/{pattern.pk}/alter/" not in client.get(f"/patterns/{pattern.pk}/").content.decode()
