"""Dates in the extended format: what they span, what is refused, and what plain words may be offered as."""

from datetime import date

import pytest

from catalogue.lengths.calculation.errors import DateNotUnderstood
from catalogue.sources.calculation.dates import describe, read_date
from catalogue.sources.calculation.plain_dates import suggest_edtf

# Examples of the Extended Date/Time Format specification, Library of Congress, 4 February 2019
# (www.loc.gov/standards/datetime), and the span that follows from what it says of each.
SPANS = [
    ("1985", "1985-01-01", "1985-12-31"),
    ("1985-04", "1985-04-01", "1985-04-30"),
    ("1985-04-12", "1985-04-12", "1985-04-12"),
    ("1964/2008", "1964-01-01", "2008-12-31"),
    ("2004-06/2006-08", "2004-06-01", "2006-08-31"),
    ("2004-02-01/2005", "2004-02-01", "2005-12-31"),
    ("1984?", "1984-01-01", "1984-12-31"),
    ("2004-06~", "2004-06-01", "2004-06-30"),
    ("2004-06-11%", "2004-06-11", "2004-06-11"),
    ("201X", "2010-01-01", "2019-12-31"),
    ("20XX", "2000-01-01", "2099-12-31"),
    ("1XXX", "1000-01-01", "1999-12-31"),
    ("1999-XX", "1999-01-01", "1999-12-31"),
    ("1985-XX-XX", "1985-01-01", "1985-12-31"),
    ("1985-04-12/..", "1985-04-12", None),
    ("../1985", None, "1985-12-31"),
    ("1985-04-12/", "1985-04-12", None),
    ("/1985-04-12", None, "1985-04-12"),
    ("1984~/2004-06", "1984-01-01", "2004-06-30"),
    ("156X-12-25", "1560-12-25", "1569-12-25"),
    ("[1667,1668,1670..1672]", "1667-01-01", "1672-12-31"),
    ("[1760-01,1760-02,1760-12..]", "1760-01-01", None),
    ("[..1760-12-03]", None, "1760-12-03"),
    ("{1960,1961-12}", "1960-01-01", "1961-12-31"),
    ("{..1983-12-31,1984-10-10,1984-11-01}", None, "1984-11-01"),
    # The specification gives a season no months; these are the meteorologists', as in the edtf library
    # (5.0.2) but for its winter, which ends with December. A winter runs into the next year and its leap day.
    ("2001-21", "2001-03-01", "2001-05-31"),
    ("1884-24", "1884-12-01", "1885-02-28"),
    ("1883-24", "1883-12-01", "1884-02-29"),
    ("1884-23/1884-24", "1884-09-01", "1885-02-28"),
    # Level 2: parts of a year by a hemisphere, quarters, thirds and halves.
    ("1884-32", "1884-06-01", "1884-08-31"),
    ("1884-33", "1884-01-01", "1884-03-31"),
    ("1884-36", "1884-10-01", "1884-12-31"),
    ("1899-39", "1899-09-01", "1899-12-31"),
    ("1884-40", "1884-01-01", "1884-06-30"),
    # Level 2: doubtful decades and seasons, alone, at the ends of an interval and in a set.
    ("177X~/178X", "1770-01-01", "1789-12-31"),
    ("177X/178X?", "1770-01-01", "1789-12-31"),
    ("1884-24~", "1884-12-01", "1885-02-28"),
    ("1884-22?/1885-21%", "1884-06-01", "1885-05-31"),
    ("[1884-24~,1886]", "1884-12-01", "1886-12-31"),
    ("2004-06-~01/2004-06-~20", "2004-06-01", "2004-06-20"),
    ("?1884-06", "1884-06-01", "1884-06-30"),
    # Level 2: so many digits count; one digit of a month or a day is known.
    ("1760S2", "1700-01-01", "1799-12-31"),
    ("1765S3~", "1760-01-01", "1769-12-31"),
    ("1760-1X", "1760-10-01", "1760-12-31"),
    ("1760-0X", "1760-01-01", "1760-09-30"),
    ("1760-02-2X", "1760-02-20", "1760-02-29"),
    # Leap years, by the Gregorian rule.
    ("1800-02", "1800-02-01", "1800-02-28"),
    ("1804-02", "1804-02-01", "1804-02-29"),
    # As garments are dated.
    ("187X", "1870-01-01", "1879-12-31"),
    ("1876/1885", "1876-01-01", "1885-12-31"),
    (" 1885~ ", "1885-01-01", "1885-12-31"),
]


@pytest.mark.parametrize(("text", "earliest", "latest"), SPANS)
def test_a_date_spans_the_days_it_allows(text, earliest, latest):
    span = read_date(text)
    assert span.edtf == text.strip()
    assert span.earliest == (earliest and date.fromisoformat(earliest))
    assert span.latest == (latest and date.fromisoformat(latest))


@pytest.mark.parametrize("text", ["1885/1876", "1760-06/1750", "[1770..1760]", "[1650,1770..1760]"])
def test_an_interval_that_runs_backwards_is_refused(text):
    with pytest.raises(DateNotUnderstood, match="runs backwards"):
        read_date(text)


@pytest.mark.parametrize(
    "text",
    [
        # Not in the text of 2019: u, ?~, and a digit missing from the year.
        "1560XX", "196u", "1984?~", "unknown", "y1785",
        # Never a date.
        "1900-02-29", "1800-02-29/1804", "1900-02-30", "1985-13", "1985-04-31", "17", "1e3",
        "[1760", "1760//1770", "<b>1760</b>",
        "(" * 70, "17８5",
        "1760S5", "1760-2X", "1760-1X-32", "1760-02-3X", "9999-24", "[[1760]]", "[1760}", "{}", "[1760,]",
        # In the format, but outside the calendar, or not what the maker who types it means.
        "Y170000002", "-0100", "0000", "XXXX", "../..", "1725-30", "1725-30/1740",
        "", "   ", "1" * 200,
    ],
)  # fmt: skip
def test_what_is_not_such_a_date_is_refused_with_a_sentence(text):
    with pytest.raises(DateNotUnderstood) as refused:
        read_date(text)
    assert refused.value.sentence.endswith((".", "?"))


OFFERS = [
    ("about 1785", "1785~"),
    ("Circa 1785", "1785~"),
    ("c. 1785", "1785~"),
    ("c1785", "1785~"),
    ("1770s", "177X"),
    ("the 1780’s", "178X"),
    ("around the 1820s", "182X~"),
    ("between 1750 and 1760", "1750/1760"),
    ("from 1750 to 1760", "1750/1760"),
    ("1750 – 1760", "1750/1760"),
    ("1750–60", "1750/1760"),
    ("1725-30", "1725/1730"),
    ("c. 1785-1790", "1785~/1790~"),
    ("probably 1785", "1785?"),
    ("1785 or 1786", "[1785,1786]"),
    ("18th century", "17XX"),
    ("before 1760", "../1759"),
    ("by 1760", "../1760"),
    ("after 1760", "1761/.."),
    ("from 1760 onwards", "1760/.."),
    ("1760 or later", "1760/.."),
    ("June 1785", "1785-06"),
    ("Sept. 1785", "1785-09"),
    ("about June 1785", "1785-06~"),
    ("3rd of June 1785", "1785-06-03"),
    ("July 14, 1789", "1789-07-14"),
    ("summer 1785", "1785-22"),
    ("June 1785 to summer 1786", "1785-06/1786-22"),
    ("1750s to 1760s", "175X/176X"),
    ("1770s or 1780s", "[177X,178X]"),
    ("about 1770 to about 1780", "1770~/1780~"),
    ("1770 to about 1780", "1770/1780~"),
    ("second quarter of the 18th century", "1725/1749"),
    ("last half of the 19th c.", "1850/1899"),
    ("dated 1785", "1785"),
    ("about summer 1785", "1785-22~"),
    ("about the 1750s to 1760s", "175X~/176X~"),
]


@pytest.mark.parametrize(("words", "offer"), OFFERS)
def test_plain_words_are_offered_as_a_date_that_reads(words, offer):
    assert suggest_edtf(words) == offer
    assert read_date(offer)


@pytest.mark.parametrize(
    "words",
    [
        "late 1870s",
        "early 1770s",
        "mid-18th century",
        "late 18th century",
        "fourth half of the 18th century",
        "1700s",  # a decade or a century
        "1801-05",  # May 1801 in the format
        "about 1785, altered 1795",
        "before about 1770",
        "1760 to 1750",
        "31 June 1785",
        "1786 or 1785",
        "300 BC",
        "undated",
        "",
    ],
)
def test_nothing_is_offered_where_a_word_would_be_lost(words):
    assert suggest_edtf(words) is None


def test_words_that_have_a_date_are_refused_with_the_offer_and_never_taken_for_it():
    with pytest.raises(DateNotUnderstood, match=r"did you mean 1785~\?"):
        read_date("about 1785")


@pytest.mark.parametrize(
    ("words", "instead"),
    [
        ("late 18th century", "no early, mid or late"),
        ("Undated", "leave the date empty"),
        ("n.d.", "leave the date empty"),
        ("seventeen eighty-five", "type 1785, 1785~ for about 1785"),
    ],
)
def test_what_has_no_offer_is_refused_with_what_to_type(words, instead):
    with pytest.raises(DateNotUnderstood, match=instead):
        read_date(words)


@pytest.mark.parametrize(
    "edtf",
    ["1785", "1785~", "1785?", "177X", "177X~", "17XX", "1785-04", "1785-04-02", "1785-24", "1785-24~",
     "1750/1760", "175X/176X", "../1760", "1760/..", "[1785,1786]"],
)  # fmt: skip
def test_the_words_that_a_date_is_shown_in_are_offered_as_that_date(edtf):
    assert suggest_edtf(describe(edtf)) == edtf


@pytest.mark.parametrize(
    ("edtf", "words"),
    [
        ("1785", "1785"),
        ("1785~", "about 1785"),
        ("1785?", "probably 1785"),
        ("1785%", "perhaps about 1785"),
        ("177X", "1770s"),
        ("177X~", "about the 1770s"),
        ("17XX", "18th century"),
        ("20XX", "21st century"),
        ("10XX", "11th century"),
        ("1785-04", "April 1785"),
        ("1785-04-02", "2 April 1785"),
        ("1785-24", "winter 1785"),
        ("1785-24~", "about winter 1785"),
        ("177X~/178X", "about the 1770s to 1780s"),
        ("1750/1760", "1750 to 1760"),
        ("1750~/1760", "about 1750 to 1760"),
        ("../1760", "1760 or before"),
        ("1760/", "1760 or after"),
        ("[1785,1786]", "1785 or 1786"),
        ("{1785,1787..1789}", "1785 and 1787 to 1789"),
        ("[..1760-12-03]", "3 December 1760 or before"),
        ("1785-XX", "1785-XX"),
    ],
)
def test_a_date_is_shown_in_plain_words(edtf, words):
    assert describe(edtf) == words
