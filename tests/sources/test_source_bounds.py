"""Files of sources made to take all of the server: refused in a sentence, in little memory and work."""

import tracemalloc

import pytest

from catalogue.sources.exchange.bibtex import reading
from catalogue.sources.exchange.bibtex.reading import read_bibtex
from catalogue.sources.exchange.csl import read_csl
from catalogue.sources.forms import MOST_BYTES

TITLE = '[{"type": "book", "title": "', '"}]'
LONG = "file: Comes to more than 8,000,000 characters when its texts are put together."
TOO_MANY = "file: This JSON cannot be read: it holds more than 500,000 values at once."
MANY = "file: This holds more than 5,000 sources: send it in parts."


def filled(unit: str, before: str = "", after: str = "") -> str:
    """A file of the most bytes."""
    return before + unit * (MOST_BYTES // len(unit)) + after


def faults(read, text: str) -> list[str]:
    """What is wrong with it, found in less than 100 MB."""
    tracemalloc.start()
    try:
        found = read(text).faults
        assert tracemalloc.get_traced_memory()[1] < 100 * 1024 * 1024
    finally:
        tracemalloc.stop()
    return [str(fault) for fault in found]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (filled("[],", "[", "[]]"), TOO_MANY),
        (filled("[", "[", "[]]"), TOO_MANY),
        ("[" * 100_000, "file: This JSON cannot be read: it is nested too deeply."),
        ("[" + "{}," * 5_000 + "{}]", MANY),
        (filled("a", *TITLE), "[0].title: This is longer than 100,000 characters."),
        (filled("<i ", *TITLE), "[0].title: This is longer than 100,000 characters."),
    ],
)  # fmt: skip
def test_csl_json_made_to_fill_the_memory_is_refused(text, fault):
    assert faults(read_csl, text) == [fault]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (filled("@book{k, title={a}}\n"), MANY),
        (filled("@"), MANY),
        (filled("\\'", "@book{k, title={", "}}"), MANY),
        ("".join(f"@book{{k{at}, title={{a}}}}\n" for at in range(5_001)), MANY),
        # Each string is ten of the one before.
        ("@string{s0 = {a}}" + "".join(
            f"@string{{s{at} = {' # '.join([f's{at - 1}'] * 10)}}}" for at in range(1, 20)
        ), LONG),
        ("@string{s = {" + "a" * 50_000 + "}}"
         + "".join(f"@book{{k{at}, title = s}}" for at in range(200)), LONG),
        ("@book{whole, title={a}, note={a}, publisher={" + "a" * 50_000 + "}}"
         + "".join(f"@book{{k{at}, crossref={{whole}}}}" for at in range(200)), LONG),
        (filled("a ", "@book{k, title={", "}}"), "line 1: Its TeX is too long, or nested too deeply."),
        ("@book{k, title={" + "{" * 9_000 + "}" * 9_000 + "}}",
         "line 1: Its TeX is too long, or nested too deeply."),
        ("\n@book{k, title={" + "\\begin{a}" * 9_000 + "}}",
         "line 2: Its TeX is too long, or nested too deeply."),
    ],
)  # fmt: skip
def test_bibtex_made_to_fill_the_memory_is_refused(text, fault):
    assert faults(read_bibtex, text) == [fault]


def test_pages_that_are_all_spaces_are_read_in_one_round(monkeypatch):
    """Between spaces a hyphen was looked for from each of them: 64 KB took 13 seconds."""
    seen = []
    monkeypatch.setattr(reading.re, "sub", lambda pattern, to, text: seen.append(text) or text)
    read_bibtex("@book{k, title={a}, pages={4" + " " * 60_000 + "5 -  7}}")
    assert "4 5 - 7" in seen
