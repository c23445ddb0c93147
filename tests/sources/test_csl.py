"""Sources as CSL-JSON. Types and variables: CSL 1.0.2 specification, appendices III and IV."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.sources.exchange.csl import TYPES, csl_item, read_csl, write_csl
from catalogue.sources.models import Source
from catalogue.workroom.kinds import KINDS
from tests.makers.cited_sources import ONE_OF_EACH, Kind, words

# Appendix III of the specification.
TYPES_OF_CSL = words(
    "article article-journal article-magazine article-newspaper bill book broadcast chapter classic "
    "collection dataset document entry entry-dictionary entry-encyclopedia event figure graphic hearing "
    "interview legal_case legislation manuscript map motion_picture musical_score pamphlet "
    "paper-conference patent performance periodical personal_communication post post-weblog "
    "regulation report review review-book software song speech standard thesis treaty webpage"
)
# Of appendix IV those that are written, and `id`, `type` and `custom` of the JSON.
VARIABLES = words(
    "id type custom genre title container-title volume issue page edition URL publisher publisher-place "
    "number archive archive-place archive_location DOI ISBN author editor issued accessed note "
    "citation-key"
)


def columns(source) -> dict[str, object]:
    values = {name: getattr(source, name) for name in KINDS[Source].fields()}
    return values | {"accessed_on": source.accessed_on and source.accessed_on.isoformat()}


@pytest.mark.parametrize("source", ONE_OF_EACH, ids=lambda source: source.kind)
def test_every_kind_comes_back_as_it_went(source):
    read = read_csl(write_csl([source]))
    assert read.faults == []
    assert read.sources[0].columns == columns(source)
    assert read.sources[0].key == str(source.key)
    assert read.sources[0].left_out == ()


@pytest.mark.parametrize("source", ONE_OF_EACH, ids=lambda source: source.kind)
def test_only_what_the_specification_names_is_written(source):
    item = csl_item(source)
    assert item["type"] in TYPES_OF_CSL
    assert set(item) <= VARIABLES


def test_every_kind_has_a_type():
    assert set(TYPES) == set(Kind.values)


def test_what_other_programs_write_is_understood():
    items = [
        {
            "id": "tarn04",
            "type": "article-magazine",
            "title": "A <i>short</i> history",
            "volume": 3,
            "author": [
                {"family": "Gogh", "non-dropping-particle": "van", "given": "Ada"},
                {"literal": "Row, Inc."},
            ],
            "issued": {"date-parts": [["2004", 5]]},
            "accessed": {"date-parts": [[2026, 1, 2]]},
            "abstract": "left out",
            "page": "1-9",
        },
        {
            "id": 2,
            "type": "graphic",
            "genre": "Painting",
            "title": "Egg-seller",
            "issued": {"literal": "18th c."},
        },
        {"id": 3, "type": "thesis", "title": "On hems", "issued": {"date-parts": [[1785]], "circa": True}},
    ]
    first, second, third = read_csl(json.dumps(items)).sources
    assert first.columns["title"] == "A short history"
    assert first.columns["authors"] == "van Gogh, Ada; Row Inc."
    assert (first.columns["volume"], first.columns["date"]) == ("3", "2004-05")
    assert first.columns["accessed_on"] == "2026-01-02"
    assert first.left_out == ("abstract",)
    assert (second.columns["kind"], second.columns["date"]) == ("painting", "18th c.")
    assert (third.columns["kind"], third.columns["date"]) == ("book", "1785~")


@pytest.mark.parametrize(
    ("issued", "date"),
    [
        ({"date-parts": [[1770], [1780]], "circa": True}, "1770~/1780~"),
        ({"date-parts": [[2004]], "season": 2}, "2004-22"),
        ({"raw": "circa 1785"}, "circa 1785"),
        # The schema of CSL-JSON lets a date be one text in the extended format.
        ("1785-06", "1785-06"),
    ],
)
def test_a_date_of_any_form_is_read_and_goes_out_so_that_it_comes_back(issued, date):
    (cited,) = read_csl(json.dumps([{"type": "book", "title": "a", "issued": issued}])).sources
    assert cited.columns["date"] == date
    again = csl_item(Source(kind=Kind.BOOK, title="a", date=date))
    assert read_csl(json.dumps([again])).sources[0].columns["date"] == date


def test_a_date_or_number_that_has_no_place_is_told_as_left_out():
    item = {"type": "book", "title": "a", "issued": {"date-parts": [[-300]]}, "DOI": "10.1/a", "ISBN": ["1"]}
    (cited,) = read_csl(json.dumps([item])).sources
    assert cited.left_out == ("ISBN", "issued")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("[", "file: This is not JSON: "),
        ("[]", "file: This holds no list of sources."),
        ("[1]", "[0]: This must be a table in braces; 1 is not."),
        ('[{"title": "a"}]', "[0].type: This is missing: say what it is, as “book”."),
        ('[{"type": "book"}]', "[0].title: This is missing."),
        (
            '[{"type": "book", "title": "a"}, {"type": "book", "title": ["b"]}]',
            "[1].title: This must be text in quotes; a list is not.",
        ),
        ('[{"type": "book", "title": "a", "URL": "javascript:alert(1)"}]', "[0].url: Enter a valid URL."),
        ('[{"type": "book", "title": "a", "title": "b"}]', "[0].title: This key comes twice."),
    ],
)
def test_a_fault_says_where_it_is(text, fault):
    read = read_csl(text)
    assert fault in str(read.faults[0])


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=8),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.text(max_size=5), inside, max_size=3),
)
NAMES = st.sampled_from(sorted(VARIABLES | {"date-parts"}))


@given(st.lists(st.dictionaries(NAMES, ANYTHING | st.just("book"), max_size=6), min_size=1, max_size=3))
def test_whatever_stands_in_it_is_read_or_faulted(items):
    read = read_csl(json.dumps(items))
    assert read.faults or len(read.sources) == len(items)
