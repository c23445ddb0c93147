"""Sources as BibTeX, written by one library and held against a second that did not write it (pybtex)."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from pybtex.database import parse_string as read_by_another

from catalogue.sources.exchange.bibtex.entries import ENTRIES
from catalogue.sources.exchange.bibtex.reading import read_bibtex
from catalogue.sources.exchange.bibtex.writing import write_bibtex
from catalogue.sources.exchange.cited_source import isbn_of
from catalogue.sources.models import Source
from tests.makers.cited_sources import ONE_OF_EACH, Kind, words
from tests.sources.test_csl import columns

# Entry types of BibTeX itself (O. Patashnik, BibTeXing, 1988, section 3.1).
ENTRY_TYPES = words(
    "article book booklet conference inbook incollection inproceedings manual mastersthesis misc phdthesis "
    "proceedings techreport unpublished"
)


@pytest.mark.parametrize("source", ONE_OF_EACH, ids=lambda source: source.kind)
def test_every_kind_comes_back_as_it_went(source):
    read = read_bibtex(write_bibtex([source]))
    assert read.faults == []
    assert read.sources[0].columns == columns(source)
    assert f"{{{source.cite_key}," in write_bibtex([source])


def test_another_reader_finds_the_same_entries_persons_and_addresses():
    others = read_by_another(write_bibtex(ONE_OF_EACH), "bibtex").entries
    assert len(others) == len(ONE_OF_EACH)
    for source in ONE_OF_EACH:
        entry = others[source.cite_key]
        assert entry.type == ENTRIES[source.kind][0]
        assert entry.fields.get("url", "") == source.url
        assert len(entry.persons.get("author", [])) == len(
            source.authors.split(";") if source.authors else []
        )
    chapter = others["ash1999"]
    assert str(chapter.persons["author"][0]) == "Ash, A."
    museum = others["thornbymuseum1911"]
    assert museum.persons["author"][0].last_names == ["{Thornby Museum}"]


# What a title may hold; a space is trimmed and joined, and a title is on one line.
TITLES = st.text(
    alphabet=st.characters(exclude_categories=("C", "Z"), exclude_characters="ˆ"), min_size=1, max_size=20
)


@given(TITLES)
@example("Szűcs “Ε” ⅛″ · \"a\" ^ ~ \\ -- ''b'' !` {")
def test_no_letter_of_a_title_changes_on_its_way(title):
    source = Source(kind=Kind.BOOK, title=title)
    written = write_bibtex([source])
    (read,) = read_bibtex(written).sources
    assert read.columns["title"] == title
    assert len(read_by_another(written, "bibtex").entries) == 1


def test_another_reader_finds_letters_of_any_alphabet():
    source = Source(kind=Kind.BOOK, title="Ű, Я, 衣", authors="Szűcs, Ödön")
    (entry,) = read_by_another(write_bibtex([source]), "bibtex").entries.values()
    assert (entry.fields["title"], str(entry.persons["author"][0])) == ("Ű, Я, 衣", "Szűcs, Ödön")


def test_only_entry_types_that_bibtex_has_are_written():
    assert {entry for entry, _ in ENTRIES.values()} <= ENTRY_TYPES
    assert set(ENTRIES) == set(Kind.values)


def test_what_other_programs_write_is_understood():
    text = r"""
    @string{row = "Halfpenny Row"}
    @Book{tarn, author = "Winifred Oxley-Tarn and {Thornby Museum} and de la Cruz, Jos{\'e}",
      title = {{The} Press \& Cupboard}, publisher = row, address = "Thornby", year = 2004, month = may,
      isbn = "0-306-40615-2", keywords = {dress}}
    @online{hems, title = {Hems \textendash{} and {\ss}}, url = {https://hems.example/a\_b},
      urldate = {2026-11-02}}
    @phdthesis{x, title={On gores}, school={Hexley}, year={1998}}
    """
    book, page, thesis = read_bibtex(text).sources
    assert book.columns["authors"] == "Oxley-Tarn, Winifred; Thornby Museum; de la Cruz, José"
    assert (book.columns["title"], book.columns["publisher"]) == ("The Press & Cupboard", "Halfpenny Row")
    assert (book.columns["date"], book.columns["identifier"]) == ("2004-05", "0-306-40615-2")
    assert book.left_out == ("keywords",)
    assert (page.columns["kind"], page.columns["title"]) == ("web page", "Hems – and ß")
    assert (page.columns["url"], page.columns["accessed_on"]) == ("https://hems.example/a_b", "2026-11-02")
    assert (thesis.columns["kind"], thesis.columns["publisher"]) == ("book", "Hexley")


def test_keys_are_kept_and_come_back_and_readable_ones_are_made():
    (cited,) = read_bibtex("@book{strake1886, title = {The Cutter}, year = {1886}}").sources
    assert (cited.columns["cite_key"], cited.key) == ("strake1886", "")
    assert write_bibtex([Source(kind=Kind.BOOK, **{"title": "x", "cite_key": "strake1886"})]).startswith(
        "@book{strake1886,"
    )
    made = [
        Source(kind=Kind.BOOK, title="Gores", authors="de la Çruz, José; Ash, A.", date="about 1884"),
        Source(kind=Kind.BOOK, title="More gores", authors="de la Çruz, José", date="1884-24~"),
        Source(kind=Kind.BOOK, title="The hems of Thornby", date="177X"),
        Source(kind=Kind.BOOK, title="衣", date=""),
    ]
    assert list(read_by_another(write_bibtex(made), "bibtex").entries) == [
        "delacruz1884", "delacruz1884b", "hems177x", "source"
    ]  # fmt: skip


def test_what_an_older_file_of_ours_called_a_source_is_its_own_key():
    (cited,) = read_bibtex(f"@book{{s{'0' * 31}7, title = {{x}}}}").sources
    assert (cited.key, cited.columns["cite_key"]) == ("0" * 31 + "7", "")


# Values joined by # and strings within strings (O. Patashnik, BibTeXing, 1988, section 2.1; from memory),
# held against a second reader.
JOINED = r"""
@string{row = "Halfpenny Row"} @string(house = ROW # {, Thornby})
@book{a, title = "On {#1} " # {gores}, publisher = house # " and " # row, year = 18 # 84, month = may # "~3"}
"""


def test_values_that_are_joined_are_read_as_one():
    (book,) = (cited.columns for cited in read_bibtex(JOINED).sources)
    assert (book["title"], book["date"]) == ("On #1 gores", "1884-05-03")
    assert book["publisher"] == "Halfpenny Row, Thornby and Halfpenny Row"
    (other,) = read_by_another(JOINED, "bibtex").entries.values()
    assert other.fields["title"].replace("{#1}", "#1") == book["title"]
    assert (other.fields["publisher"], other.fields["year"]) == (book["publisher"], "1884")


def test_a_chapter_has_from_its_book_what_it_lacks():
    chapter, book = (
        cited.columns
        for cited in read_bibtex(
            """@incollection{c, crossref = {Wide}, title = {Gores}, author = {Ash, A.}, pages = {5--9}}
            @book{wide, title = {Wide Skirts}, editor = {Birch, Bo}, publisher = {Halfpenny Row}, year = 1999,
              pages = {300}, note = {Ours.}}"""
        ).sources
    )
    assert (chapter["title"], chapter["container"], chapter["editors"]) == (
        "Gores",
        "Wide Skirts",
        "Birch, Bo",
    )
    assert (chapter["publisher"], chapter["date"]) == ("Halfpenny Row", "1999")
    assert (chapter["pages"], chapter["notes"], chapter["kind"]) == ("5–9", "", Kind.CHAPTER)
    assert (book["title"], book["container"]) == ("Wide Skirts", "")


def test_a_book_that_is_not_in_the_file_is_told_as_left_out():
    (cited,) = read_bibtex("@incollection{c, crossref = {wide}, title = {Gores}}").sources
    assert cited.left_out == ("crossref",)


def test_a_second_isbn_and_a_doi_are_kept():
    isbns = "0-306-40615-2, 978-0-306-40615-7"
    text = f"@book{{a, title = {{x}}, isbn = {{{isbns}}}, doi = {{10.5555/x;1}}, identifier = {{D 3}}}}"
    (book,) = (cited.columns for cited in read_bibtex(text).sources)
    assert book["identifier"] == "10.5555/x;1; 0-306-40615-2; 978-0-306-40615-7; D 3"
    written = write_bibtex([Source(**book | {"accessed_on": None})])
    assert "isbn = {0-306-40615-2, 978-0-306-40615-7}" in written
    assert "identifier = {D 3}" in written


def test_dates_in_the_format_titles_over_two_lines_and_addresses_among_the_words_are_read():
    text = (
        "@book{a, title = {From the\r\n  Press~Cupboard}, date = {1785~/1790}}"
        "@book{b, title = {b}, year = {1785--1790}} @book{c, title = {c}, year = {c.~1785}}"
        r"@misc{d, title = {d}, howpublished = {\url{https://hems.example/a_b%20c}}}"
    )
    first, second, third, page = (cited.columns for cited in read_bibtex(text).sources)
    assert (first["title"], first["date"]) == ("From the Press Cupboard", "1785~/1790")
    assert (second["date"], third["date"]) == ("1785–1790", "c. 1785")
    assert (page["kind"], page["url"], page["publisher"]) == (
        Kind.WEB_PAGE,
        "https://hems.example/a_b%20c",
        "",
    )


def test_a_date_goes_out_with_the_marks_that_other_writers_use():
    assert "date = {1785~}" in write_bibtex([Source(kind=Kind.PAINTING, title="Fair", date="1785~")])


def test_a_fault_is_told_without_what_is_meant_for_programmers():
    (fault,) = read_bibtex("@book{a, title={x}, title={y}}").faults
    assert fault.sentence == "Duplicate field keys on entry: 'title'."


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("garbage", "file"),
        ("@book{a, title = {x}}\n@book{a, title = {y}}", "line 2"),
        ("@book{a, title = {x}", "line 1"),
        ("@book{a, author = {x}}", "a.title"),
    ],
)
def test_a_fault_says_where_it_is(text, place):
    assert read_bibtex(text).faults[0].where == place


@given(st.text(alphabet='@{}=,"\\ab book{author title}\n#%1', max_size=80))
def test_whatever_stands_in_it_is_read_or_faulted(text):
    read = read_bibtex(text)
    assert read.faults or read.sources


@pytest.mark.parametrize(
    ("identifier", "is_one"),
    [
        # The worked example of the check digit, as many books print it; from memory.
        ("978-0-306-40615-7", True),
        ("ISBN 0-306-40615-2", True),
        ("0-306-40615-3", False),
        ("1911.48.2", False),
        ("0-8044-2957-X", True),
    ],
)
def test_an_isbn_is_known_by_its_check_digit(identifier, is_one):
    assert bool(isbn_of(identifier)) is is_one
