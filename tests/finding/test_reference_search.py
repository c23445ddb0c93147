"""Full-text search, on whichever database the tests run: both are to give the same answers."""

import pytest
from django.core.management import call_command
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase

from catalogue.finding.models import IndexCard
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Citation
from catalogue.workroom.index.engine import references_with
from catalogue.workroom.index.filing import file_all, file_references
from catalogue.workroom.index.words import read_words
from catalogue.workroom.models import Workroom
from tests.makers.rows import make_piece, make_plate, make_reference, make_source

# What people type and paste, and what both databases would take for a word of their own.
HOSTILE = [
    "'", '"', "''", '""', "\\", "\\'", "%", "_", "*", "sta*", "-", "--", "; DROP TABLE x", "NEAR(a b)",
    "a OR b", "NOT", "AND OR", "(", ")", "((", "{name}: x", "name:stays", "^stays", "stays +linen",
    "a & b", "a | !b",
    "'stays':*", "stays:A", "<->", "<script>", "\u2028", "½", "１９１１", "é" * 500, "a " * 5000,
    "🧵", "İ", "ß", "ﬁ",
]  # fmt: skip


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def found(client, text: str) -> list[str]:
    file_all()
    page = client.get("/references/", {"text": text}).context["page"]
    return [listed.reference.name for listed in page]


@pytest.fixture
def press(people) -> ReferenceGarment:
    """One garment with a word in each place that is searched."""
    reference = make_reference(
        people.workroom,
        name="Négligé jacket",
        kind="jacket",
        place="Hexley",
        holder="Maison Brodé",
        accession="1911.48.2",
        materials="Taffetas rayé",
        technique="pinked",
        fastening="hooks",
        construction_notes="Łódź wool, straße",
        seam_evidence_note="æsthetic",
    )
    reference.tags.create(workroom=people.workroom, name="loan")
    plate = make_plate(reference, title="Diagram", notes="squared")
    make_piece(plate, "gusset", notes="selvedge")
    source = make_source(people.workroom, title="Ledger", authors="Oxley-Tarn, W.")
    Citation.objects.create(reference=reference, source=source, fact="embezzled")
    make_reference(people.workroom, name="apron", kind="apron", dress="men's")
    return reference


@pytest.mark.parametrize(
    "text",
    [
        "neglige", "NÉGLIGÉ", "ne\u0301glige\u0301", "jacket hexley", "maison brode", "1911.48.2", "48 1911",
        "taffetas raye", "pink", "hooks", "lodz", "strasse", "straße", "aesthetic", "loan", "diagram",
        "squared", "gusset", "selvedge", "ledger", "oxley-tarn", "embezzled", "women", "jack neg",
    ],
)  # fmt: skip
def test_words_are_found_wherever_they_stand_by_their_beginning_and_without_accents(maker, press, text):
    assert found(maker, text) == ["Négligé jacket"]


@pytest.mark.parametrize("text", ["neglige apron", "egligé", "acket", "4", "zzz", "-", "!?"])
def test_every_word_must_begin_one_of_the_garments_and_no_word_finds_nothing(maker, press, text):
    assert found(maker, text) == []


def test_a_word_in_the_name_goes_before_one_among_the_facts_and_that_before_one_in_the_notes(maker, people):
    other = {"materials": "linen", "construction_notes": "plain"}
    make_reference(people.workroom, name="third", **{**other, "construction_notes": "Quilted, they say."})
    make_reference(people.workroom, name="second", **{**other, "technique": "quilted"})
    make_reference(people.workroom, name="quilted", **other)
    assert found(maker, "quilted") == ["quilted", "second", "third"]


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_typed_breaks_the_search(maker, press, text):
    file_all()
    assert maker.get("/references/", {"text": text}).status_code == 200
    assert maker.get("/sources/", {"text": text}).status_code == 200
    assert maker.get("/references/", {"place": text, "as": "time"}).status_code == 200


def test_the_words_are_marked_where_they_stand_and_what_is_around_them_is_escaped(maker, people):
    notes = "Plain. " * 60 + "<b>Brodé</b> & pinked."
    make_reference(people.workroom, name="<i>Brode</i>", construction_notes=notes)
    file_all()
    page = maker.get("/references/", {"text": "brode pink"}).content.decode()
    assert "&lt;i&gt;<mark>Brode</mark>&lt;/i&gt;" in page
    assert "&lt;b&gt;<mark>Brodé</mark>&lt;/b&gt; &amp; <mark>pinked</mark>." in page
    assert "<b>" not in page.split("<main")[1].replace("<button", "")


def test_another_workrooms_garments_and_sources_are_not_found(maker, people):
    theirs = people.stranger.memberships.get().workroom
    make_reference(theirs, name="stays")
    make_source(theirs, title="On stays")
    assert found(maker, "stays") == []
    assert "On stays" not in maker.get("/references/?text=stays").content.decode()


def test_sources_with_the_words_are_named_below_cited_or_not(maker, people):
    make_source(people.workroom, title="Étude on stays")
    file_all()
    assert "Étude on stays" in maker.get("/references/?text=etude").content.decode()


def test_the_command_writes_the_whole_index_or_only_what_is_missing(maker, press, capsys):
    call_command("reindex")
    assert "2 reference garments and 1 sources" in capsys.readouterr().out
    IndexCard.objects.filter(reference=press).update(name=" wrong", text="wrong")
    call_command("reindex", missing=True)
    assert IndexCard.objects.get(reference=press).name == " wrong"
    IndexCard.objects.filter(reference=press).delete()
    call_command("reindex", missing=True)
    assert IndexCard.objects.get(reference=press).name == " neglige jacket"


class AnyWords(TestCase):
    """Whatever letters a name is made of, each of its words finds it again."""

    def setUp(self) -> None:
        self.workroom = Workroom.objects.create(name="Attic table")

    @given(st.text(max_size=80).filter(lambda text: "\x00" not in text))
    @example("shift 𐋡")
    def test_each_word_of_a_name_finds_it(self, name: str) -> None:
        reference = make_reference(self.workroom, name=name[:160])
        file_references({reference.pk})
        for word in read_words(name):
            found = ReferenceGarment.objects.filter(pk__in=references_with((word,), "default"))
            assert reference in found, word
