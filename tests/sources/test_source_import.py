"""Sources in and out through pages."""

import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalogue.sources.models import Source
from tests.makers.rows import make_source

BIB = "@book{a, title = {Press Cupboard}, author = {Tarn, W.}, year = {2004}, keywords = {x}}"


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_it_is_shown_first_and_added_when_the_maker_says_so(maker, people):
    shown = maker.post(reverse("source-import"), {"text": BIB}).content.decode()
    assert "Tarn, W. <i>Press Cupboard</i>. 2004." in shown
    assert "Press Cupboard: keywords" in shown
    assert not Source.objects.exists()
    maker.post(reverse("source-import"), {"text": BIB, "take": "yes"})
    source = people.workroom.sources.get()
    assert source.authors == "Tarn, W."
    assert "press" in source.index_card.name


def test_what_was_tried_is_sent_again_as_it_is_and_not_three_times_as_long(maker):
    page = maker.post(reverse("source-import"), {"text": BIB}).content.decode()
    form = page[page.rindex("<form", 0, page.index("<textarea")) :]
    assert form.startswith('<form method="post" enctype="multipart/form-data">')


def test_the_mark_that_some_editors_put_before_a_text_is_no_fault(maker, people):
    maker.post(reverse("source-import"), {"text": '\ufeff[{"type": "book", "title": "A"}]', "take": "yes"})
    assert people.workroom.sources.get().title == "A"


def test_a_month_and_an_edition_of_5_000_digits_are_words_like_any_other(maker, people):
    digits = "9" * 5_000
    bib = f"@book{{a, title = {{A}}, year = {{2004}}, month = {{{digits}}}, edition = {{{digits[:60]}}}}}"
    shown = maker.post(reverse("source-import"), {"text": bib, "take": "yes"}, follow=True)
    assert shown.status_code == 200
    assert people.workroom.sources.get().edition == digits[:60]
    item = [{"type": "book", "title": "B", "edition": digits, "issued": {"date-parts": [[digits]]}}]
    faulty = maker.post(reverse("source-import"), {"text": json.dumps(item)})
    assert "[0].edition: " in faulty.content.decode()


def test_what_is_there_already_is_not_there_twice(maker, people):
    for _ in range(2):
        maker.post(reverse("source-import"), {"text": BIB, "take": "yes"})
    assert people.workroom.sources.count() == 1


def test_what_may_be_there_under_another_name_is_pointed_out_and_added(maker, people):
    make_source(
        people.workroom, title="Stays", kind="museum record", publisher="Thornby Museum", identifier="P. 61"
    )
    text = """@misc{a, type = {museum record}, title = {Pair of bodies}, publisher = {Thornby museum},
      identifier = {P.61}}
      @book{b, title = {The Press Cupboard}, author = {Tarn, W.}, year = 2004}
      @book{c, title = {Press cupboard}, author = {Tarn, Winifred}, year = 2005}"""
    page = maker.post(reverse("source-import"), {"text": text}).content.decode()
    assert "2 may be there already" in page
    assert "It has the same holder and number as <a" in page
    assert "It has the same title and author as another in this file: The Press Cupboard" in page
    maker.post(reverse("source-import"), {"text": text, "take": "yes"})
    keys = sorted(people.workroom.sources.values_list("cite_key", flat=True))
    assert keys == ["a", "b", "c", "stays"]


def test_a_key_that_another_source_has_is_given_a_letter(maker, people):
    make_source(people.workroom, title="Hems", cite_key="a")
    maker.post(reverse("source-import"), {"text": BIB, "take": "yes"})
    assert set(people.workroom.sources.values_list("cite_key", flat=True)) == {"a", "ab"}


def test_our_own_file_is_known_by_its_keys(maker, people):
    source = make_source(people.workroom, title="Cut and Cloth")
    file = maker.get(reverse("source-export", args=["csl"])).content
    Source.objects.filter(pk=source.pk).update(title="Cut, and Cloth")
    sent = SimpleUploadedFile("sources.json", file)
    assert "There already" not in maker.post(reverse("source-import"), {"file": sent}).content.decode()
    sent = SimpleUploadedFile("sources.json", file)
    maker.post(reverse("source-import"), {"file": sent, "take": "yes"})
    assert people.workroom.sources.count() == 1


def test_another_workrooms_sources_are_no_bar(maker, people):
    make_source(
        people.stranger.memberships.get().workroom, title="Press Cupboard", authors="Tarn, W.", date="2004"
    )
    maker.post(reverse("source-import"), {"text": BIB, "take": "yes"})
    assert people.workroom.sources.count() == 1


def test_faults_are_said_and_the_text_stays_in_its_box(maker):
    page = maker.post(
        reverse("source-import"), {"text": '[{"type": "book"}]', "take": "yes"}
    ).content.decode()
    assert "[0].title: This is missing." in page
    assert "&quot;type&quot;: &quot;book&quot;" in page
    assert not Source.objects.exists()


@pytest.mark.parametrize(("form", "start"), [("csl", "["), ("bibtex", "@book{")])
def test_one_source_or_all_go_out(maker, people, form, start):
    first, _ = (make_source(people.workroom, title=title) for title in ("First", "Second"))
    everything = maker.get(reverse("source-export", args=[form])).content.decode()
    one = maker.get(reverse("source-export", args=[form]), {"source": first.pk})
    assert everything.startswith(start)
    assert "Second" in everything
    assert "Second" not in one.content.decode()
    assert 'filename="first.' in one["Content-Disposition"]


def test_a_strangers_source_does_not_go_out(maker, people):
    theirs = make_source(people.stranger.memberships.get().workroom, title="Theirs")
    answer = maker.get(reverse("source-export", args=["csl"]), {"source": theirs.pk})
    assert json.loads(answer.content) == []


def test_the_bibliography_stands_by_author(maker, people):
    make_source(people.workroom, title="A", authors="Zoe")
    make_source(people.workroom, title="B", authors="Ada")
    page = maker.get(reverse("source-bibliography")).content.decode()
    assert page.index("Ada. <i>B</i>.") < page.index("Zoe. <i>A</i>.")
