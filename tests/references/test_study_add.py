"""A sheet for an appointment with an object, and typing it up into the garment."""

import pytest
from django.urls import reverse

from tests.makers.rows import make_reference


@pytest.fixture
def stays(people):
    return make_reference(
        people.workroom, name="Front-laced stays", kind="stays", holder="Thornby", accession="1.2"
    )


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def typed(*measures: tuple[str, str], **given) -> dict[str, str]:
    sent = {
        "form-TOTAL_FORMS": "12",
        "form-INITIAL_FORMS": "0",
        "seen_on": "2026-11-20",
        "seen_by": "Tarn, W.",
    }
    for number, (line, value) in enumerate(measures):
        sent |= {f"form-{number}-line": line, f"form-{number}-value": value}
    return sent | given


def test_the_sheet_says_what_is_known_and_asks_the_usual_measures(maker, stays):
    page = maker.get(reverse("study-sheet", args=[stays.pk])).content.decode()
    for words in ("Thornby", "1.2", "What may not be touched", "Stitches to the inch", "Underarm to waist"):
        assert words in page
    assert "Inside leg" not in page


def test_the_rows_to_type_in_stand_as_on_the_sheet_and_those_left_empty_are_no_measures(maker, stays):
    formset = maker.get(reverse("study-add", args=[stays.pk])).context["formset"]
    asked = [form["line"].value() for form in formset]
    lines = [line.key for line in maker.get(reverse("study-sheet", args=[stays.pk])).context["lines"]]
    assert asked[: len(lines)] == lines
    assert set(asked[len(lines) :]) == {None}
    sent = typed(*((line, "31 in" if line == "bust" else "") for line in lines))
    assert maker.post(reverse("study-add", args=[stays.pk]), sent).status_code == 302
    assert stays.published_measures.get().line == "bust"


def test_it_becomes_a_source_that_the_garment_cites_with_its_measures(maker, people, stays):
    sent = typed(("waist", "24 1/2"), ("bust", "31 in"), condition="Lining gone.", stitches="12, backstitch")
    assert maker.post(reverse("study-add", args=[stays.pk]), sent).status_code == 302
    source = people.workroom.sources.get()
    assert (source.kind, source.authors, source.date) == ("own study", "Tarn, W.", "2026-11-20")
    assert (source.publisher, source.identifier) == ("Thornby", "1.2")
    assert "Lining gone." in source.notes
    assert "seam by seam:\n12, backstitch" in source.notes
    assert stays.citations.get().source == source
    measured = {row.line: (row.value_text, row.source) for row in stays.published_measures.all()}
    assert measured == {"waist": ("24 1/2 in", source), "bust": ("31 in", source)}


def test_what_was_written_is_found_by_its_words(maker, people, stays):
    maker.post(reverse("study-add", args=[stays.pk]), typed(cloth="drabbet"))
    assert "drabbet" in people.workroom.sources.get().index_card.notes


@pytest.mark.parametrize(
    ("measure", "words"),
    [
        (("", "24 in"), "Say where this was measured."),
        (("waist", "26–28 in"), "box"),
        (("waist", "0"), "nothing"),
    ],
)
def test_a_faulty_measure_keeps_nothing_and_loses_nothing(maker, people, stays, measure, words):
    page = maker.post(reverse("study-add", args=[stays.pk]), typed(measure, condition="Lining gone."))
    assert words in page.content.decode()
    assert "Lining gone." in page.content.decode()
    assert not people.workroom.sources.exists()
