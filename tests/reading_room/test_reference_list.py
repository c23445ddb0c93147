import datetime

import pytest

from catalogue.finding.models import SavedFilter
from catalogue.photographs.models import Photo
from catalogue.references.models.tag import Tag
from catalogue.workroom.index.filing import file_all
from tests.makers.rows import (
    make_bodice_plate,
    make_draft_plate,
    make_garment,
    make_outfit,
    make_photo,
    make_piece,
    make_plate,
    make_reference,
    make_source,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def found_at(client, query: str) -> list[str]:
    """The names on the list at this address, in its order; what was made before is filed first."""
    file_all()
    return [listed.reference.name for listed in client.get(f"/references/?{query}").context["page"]]


def text_at(client, query: str) -> str:
    file_all()
    return client.get(f"/references/?{query}").content.decode()


@pytest.mark.parametrize("query", ["", "?as=time"])
def test_an_empty_list_says_what_to_do_next(maker, query):
    page = maker.get(f"/references/{query}").content.decode()
    assert "No reference garments yet" in page
    assert "/references/add/" in page


QUERIES = [
    "",
    "as=table",
    "as=time",
    "text=coat",
    "dress=women%27s&kind=bodice&plates=yes&photos=yes&used=no&tag=wool&line=waist&girth_from=1",
]


@pytest.mark.parametrize("query", QUERIES)
@pytest.mark.parametrize("count", [1, 50])
def test_the_list_asks_at_most_ten_times_for_fifty_as_for_one(
    maker, people, django_assert_max_num_queries, query, count
):
    wool = Tag.objects.create(workroom=people.workroom, name="wool")
    SavedFilter.objects.create(workroom=people.workroom, name="kept", query="tag=wool")
    for number in range(count):
        plate = make_bodice_plate(people.workroom)
        plate.reference.name = f"Coat {number:02}"
        plate.reference.save()
        plate.reference.tags.add(wool)
        Photo.objects.create(reference=plate.reference, stem=f"p{number}", width=3, height=4)
    make_source(people.workroom, title="On coats")
    file_all()
    # Session, person, membership; how many, their keys, the rows; saved filters; three for the counts.
    with django_assert_max_num_queries(10):
        answer = maker.get(f"/references/?{query}")
    assert len(answer.context["page"].object_list) == count


def dated(workroom, name: str, earliest: int | None, latest: int | None) -> None:
    make_reference(
        workroom,
        name=name,
        date_edtf="stated",
        date_earliest=earliest and datetime.date(earliest, 1, 1),
        date_latest=latest and datetime.date(latest, 12, 31),
    )


def test_years_find_every_garment_whose_date_touches_them(maker, people):
    dated(people.workroom, "stays", 1780, 1790)
    dated(people.workroom, "coat", 1795, None)
    dated(people.workroom, "shift", None, 1785)
    make_reference(people.workroom, name="undated")
    assert found_at(maker, "year_from=1790") == ["stays", "coat"]
    assert found_at(maker, "year_from=1900") == ["coat"]
    assert found_at(maker, "year_to=1784") == ["stays", "shift"]
    assert found_at(maker, "year_from=1791&year_to=1794") == []
    # Where each of them first is known to be; the undated come last.
    assert found_at(maker, "") == ["stays", "shift", "coat", "undated"]


def test_kind_and_place_narrow_the_list_and_nothing_found_is_said(maker, people):
    make_reference(people.workroom, name="breeches", dress="men's", place="Lower Oxbrook")
    make_reference(people.workroom, name="gown")
    assert found_at(maker, "dress=men%27s&place=oxbrook") == ["breeches"]
    assert "No reference garment answers" in text_at(maker, "text=zzz")


@pytest.mark.parametrize("column", ["place", "materials", "technique", "fastening"])
def test_a_column_is_searched_by_the_beginnings_of_its_words_and_without_accents(maker, people, column):
    make_reference(people.workroom, name="jacket", **{column: "Brodé à la main"})
    make_reference(people.workroom, name="coat", construction_notes="brodé")
    assert found_at(maker, f"{column}=MAIN+brode") == ["jacket"]
    assert found_at(maker, f"{column}=ain") == []


def test_plates_readings_photographs_and_use_are_with_or_without(maker, people):
    plate = make_bodice_plate(people.workroom)
    make_plate(make_reference(people.workroom, name="only drawn"))
    make_photo(make_reference(people.workroom, name="only pictured"))
    make_garment(make_outfit(people.workroom), plate=plate)
    assert set(found_at(maker, "plates=yes")) == {"back-laced bodice", "only drawn"}
    assert found_at(maker, "drafts=yes") == []
    assert found_at(maker, "readings=yes") == ["back-laced bodice"]
    assert found_at(maker, "photos=yes") == ["only pictured"]
    assert found_at(maker, "used=yes") == ["back-laced bodice"]
    assert set(found_at(maker, "used=no")) == {"only drawn", "only pictured"}


def test_proportional_drafts_are_found_by_their_kind_and_by_their_words(maker, people):
    make_bodice_plate(people.workroom)
    make_draft_plate(people.workroom)
    file_all()
    assert found_at(maker, "drafts=yes") == ["draft of a bodice"]
    assert found_at(maker, "drafts=no") == ["back-laced bodice"]
    assert found_at(maker, "text=proportional+half+bust") == ["draft of a bodice"]
    assert "with (1)" in text_at(maker, "")


@pytest.mark.parametrize(
    ("ends", "is_found"),
    [
        # The bodice of the worked case: 8 × (2 × 3/4 + 2 × 5/8) in = 22 in at the waist.
        ("", True),
        ("&girth_from=22&girth_to=22", True),
        ("&girth_from=22+1/16", False),
        ("&girth_to=55.8+cm", False),
        ("&girth_from=550+mm&girth_to=24", True),
    ],
)
def test_a_girth_is_found_between_two_lengths_in_any_unit(maker, people, ends, is_found):
    make_bodice_plate(people.workroom)
    assert bool(found_at(maker, f"line=waist{ends}")) is is_found
    assert found_at(maker, f"line=hip{ends}") == []


def test_a_girth_whose_allowance_is_not_known_is_found_with_it_and_without(maker, people):
    plate = make_plate(make_reference(people.workroom), allowance="not known")
    make_piece(plate, "front", {"waist": "1 in"}, cut=1)
    # 8 in without; with 1/2 in at both edges 7 in.
    for girth in ("7", "7+1/2", "8"):
        assert found_at(maker, f"line=waist&girth_from={girth}&girth_to={girth}"), girth
    assert not found_at(maker, "line=waist&girth_to=6+7/8")


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("girth_from=20", "line"),
        ("line=waist&girth_from=21&girth_to=20", "girth_to"),
        ("line=waist&girth_from=20-24", "girth_from"),
        ("year_from=1790&year_to=1780", "year_to"),
        ("dress=nobody", "dress"),
    ],
)
def test_a_filter_that_is_not_understood_is_told_and_narrows_nothing(maker, people, query, field):
    plate = make_bodice_plate(people.workroom)
    plate.reference.date_edtf, plate.reference.date_earliest = "1795/..", datetime.date(1795, 1, 1)
    plate.reference.save()
    assert found_at(maker, query) == ["back-laced bodice"]
    assert field in maker.get(f"/references/?{query}").context["filter"].form.errors


def test_every_choice_says_how_many_it_would_leave(maker, people):
    loan = Tag.objects.create(workroom=people.workroom, name="loan")
    for kind, dress, is_lent in [
        ("coat", "men's", True),
        ("coat", "men's", False),
        ("gown", "women's", True),
    ]:
        reference = make_reference(people.workroom, kind=kind, dress=dress)
        if is_lent:
            reference.tags.add(loan)
    make_plate(reference)
    page = text_at(maker, "")
    for choice in ("coat (2)", "gown (1)", "men&#x27;s dress (2)", "loan (2)", "with (1)", "without (2)"):
        assert choice in page
    # Its own choice does not narrow a filter's counts, the others' do.
    page = text_at(maker, "kind=gown&tag=loan")
    for choice in ("coat (1)", "gown (1)", "men&#x27;s dress (0)", "loan (1)"):
        assert choice in page


def test_filters_in_use_are_cleared_one_by_one(maker, people):
    make_reference(people.workroom, kind="coat", place="Hexley")
    cleared = [
        chip.query_without
        for chip in maker.get("/references/?kind=coat&place=hexley&page=1&as=table").context["chips"]
    ]
    assert cleared == ["place=hexley&as=table", "kind=coat&as=table"]
    measured = maker.get("/references/?line=waist&girth_from=20&girth_to=24").context["chips"]
    assert [(chip.text, chip.query_without) for chip in measured] == [("waist from 20 in to 24 in", "")]


def test_filters_are_kept_under_a_name_replaced_and_forgotten(maker, people):
    kept = {"name": "Hexley  coats", "query": "kind=coat&place=hexley"}
    answer = maker.post("/references/filters/save/", kept, follow=True)
    assert answer.request["QUERY_STRING"] == "kind=coat&place=hexley"
    maker.post("/references/filters/save/", {**kept, "query": "kind=gown"})
    saved = SavedFilter.objects.get()
    assert (saved.name, saved.query) == ("Hexley coats", "kind=gown")
    assert "forget" in maker.get(f"/references/filters/{saved.pk}/delete/").content.decode().casefold()
    maker.post(f"/references/filters/{saved.pk}/delete/")
    assert not SavedFilter.objects.exists()


@pytest.mark.parametrize("query", ["//elsewhere.example/", "javascript:alert(1)", "x" * 900, "a=b#c"])
def test_what_is_kept_as_filters_leads_to_the_list_and_nowhere_else(maker, people, query):
    maker.post("/references/filters/save/", {"name": "odd", "query": query})
    address = SavedFilter.objects.get().get_absolute_url()
    assert address.startswith("/references/?")
    answer = maker.get(address, follow=True)
    assert (answer.status_code, answer.request["PATH_INFO"]) == (200, "/references/")


def test_boxes_left_empty_are_no_part_of_the_address(maker, people):
    answer = maker.get("/references/?text=&kind=coat&tag=&garment=3&garment=4&page=2")
    assert answer["Location"] == "/references/?kind=coat&garment=3&garment=4"


def test_a_long_list_comes_in_pages(maker, people):
    for number in range(51):
        make_reference(people.workroom, name=f"Coat {number:02}")
    assert "Page 1 of 2" in maker.get("/references/").content.decode()
    assert len(maker.get("/references/?page=2").context["page"].object_list) == 1
