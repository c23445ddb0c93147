"""Text that anybody may send, made to hold up the patterns it meets: a megabyte is done with in a second.

A pattern at work keeps every other request waiting. The second is of the processor's time, so that a busy
machine changes nothing; the table FREE says why a module with patterns needs no trial.
"""

import re
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from io import BytesIO
from pathlib import Path
from types import SimpleNamespace

import pytest

from catalogue.lengths.calculation.errors import Faults, NotUnderstood
from catalogue.lengths.calculation.lengths import canonical_text, parse_length
from catalogue.lengths.calculation.units import find_unit
from catalogue.plates.calculation.scale import read_ratio, read_words
from catalogue.references.calculation import list_for
from catalogue.sources.calculation.dates import describe, ends_of, read_date
from catalogue.sources.calculation.plain_dates import suggest_edtf
from catalogue.sources.exchange.bibtex.joining import _joined
from catalogue.sources.exchange.bibtex.writing import write_bibtex
from catalogue.sources.exchange.cited_source import codes_of, doi_of, isbn_of, plain
from catalogue.sources.exchange.csl import csl_item
from catalogue.sources.models import CITE_KEY, Source, readable_key
from catalogue.sources.showing import cite
from catalogue.tracing.exchange.svg_lines import read_lines
from catalogue.tracing.showing import dxf
from catalogue.workroom.index.snippet import snippet
from catalogue.workroom.index.words import fold
from catalogue.workroom.models import User
from catalogue.workroom.reader.long_json import LongTable
from catalogue.workroom.reader.safe_xml import Element
from catalogue.workroom.reader.strict_json import NotStrictJson
from fitting.comparing.forms.quick import QuickPlateForm
from fitting.dossier.loading import cautions
from fitting.outfits.calculation.discretion import (
    names_of,
    without_measures,
    without_names,
    without_sentences,
    words_for_anybody,
)
from fitting.templatetags.dossier import kept_together
from fitting.wearers.calculation.layers import layer_kind_named

ROOT = Path(__file__).resolve().parents[1]
SIGNS = 1_000_000
NAMES = names_of(["Ann Lee"], parts_as_written=True)
SECONDS = 1.0


def svg(**attributes: str) -> Element:
    drawn = Element(name=attributes.pop("name", "path"), attributes=attributes)
    root = {"width": "100mm", "height": "100mm", "viewBox": "0 0 100 100"}
    return Element(name="svg", attributes=root, children=[drawn])


def source(**said: str) -> Source:
    return Source(**{"kind": Source.Kind.ARTICLE, "title": "Sleeves", **said})


# Of each module: what is done with a text, and what is said in it over and over.
TRIALS: dict[str, tuple[tuple[Callable[[str], object], tuple[str, ...]], ...]] = {
    "catalogue/lengths/calculation/lengths.py": (
        (lambda text: parse_length(text, unit="in"), ("1 ", "1", " ", "1/", "in ", "1-", "1 in, ")),
        (lambda text: canonical_text(text, unit="in", signed=True), ("−", "½", "1 to ")),
    ),
    "catalogue/lengths/calculation/units.py": ((find_unit, ("in ", "s", " ", "[s]")),),
    "catalogue/plates/calculation/scale.py": (
        (read_ratio, ("1:", "1", " ", ": ", ".1")),
        (read_words, ("= ", " ", "to ", "1 in = ", "stands ", "stands for ")),
    ),
    "catalogue/references/calculation.py": ((list_for, ("gown ", "s", " ", "_ ")),),
    "catalogue/sources/calculation/dates.py": (
        (read_date, ("1785/", "n. ", "early ", "[", "178X,", "1")),
        (ends_of, ("/", "..", ",", "~/")),
        (describe, ("[1785", "1785,", "{..", "/")),
    ),
    "catalogue/sources/calculation/plain_dates.py": (
        (suggest_edtf, ("or ", "between ", "to ", " ", "about ", "- ", "ca", "1785 to ", "first half of ")),
    ),
    "catalogue/sources/exchange/bibtex/joining.py": (
        (lambda text: _joined(text, {}, SIGNS), ("# ", "{", '"', '"a" # ', "\\")),
    ),
    "catalogue/sources/exchange/bibtex/writing.py": (
        (
            lambda text: write_bibtex([source(title=text, date=text, pages=text)]),
            ("-", "`", "'", "!`", "1 ", "{"),
        ),
    ),
    "catalogue/sources/exchange/cited_source.py": (
        (doi_of, ("doi:", "10.1234/", " ", "https://doi.org/")),
        (isbn_of, ("ISBN", "9-", " ", "X")),
        (codes_of, ("; ", ";", "10.1234/; ", ";  ")),
        (plain, ("<i", "<i ", "</", "<span <", " ", "<i x>")),
    ),
    "catalogue/sources/exchange/csl.py": (
        (lambda text: csl_item(source(date=text)), ("1785-", "1785/", "1", "~")),
    ),
    "catalogue/sources/models.py": (
        (lambda text: readable_key(source(authors=text, title=text, date=text)), ("a ", "177", ", ", "; ")),
        (CITE_KEY.fullmatch, ("a", " ", "{")),
    ),
    "catalogue/sources/showing.py": (
        (
            lambda text: cite(source(date=text, authors=text, edition=text, title=text)),
            ("1785/", "12", "A, ", "; ", ". "),
        ),
    ),
    "catalogue/tracing/exchange/svg_lines.py": (
        (lambda text: read_lines(Element(name="svg", attributes={"width": text})), ("1", " ", "1e", "m")),
    ),
    "catalogue/tracing/exchange/svg_shapes.py": (
        (
            lambda text: read_lines(svg(d=text)),
            ("M1 1", "1", "0", "1.", " ", "A1", "a1 1 1 0", "e", "-", "ZM"),
        ),
        (lambda text: read_lines(svg(d="M0 0L1 1", transform=text)), ("(", "scale(", "scale(1)", " ", ",")),
        (lambda text: read_lines(svg(name="rect", width=text, height="2")), ("1", " ", "1px", "0")),
    ),
    "catalogue/tracing/showing/dxf.py": (
        (lambda text: dxf._layer_of(SimpleNamespace(name=text, cloth="lining")), ("<", " ", "a")),
    ),
    "catalogue/workroom/index/snippet.py": (
        (
            lambda text: snippet(text, ("sleeve", "a", "b", "c")),
            ("a ", "sleeve ", "e\u0301", "\u0301", " ", "_"),
        ),
    ),
    "catalogue/workroom/index/words.py": ((fold, ("a ", "é ", "e\u0301", "ﷺ", "_")),),
    "catalogue/workroom/reader/long_json.py": (
        (
            lambda text: [list(member.values) for _, member in LongTable(BytesIO(text.encode())).members()],
            (" ", "[", '{"a": ', '"', "1", "{}", "\\"),
        ),
    ),
    "fitting/comparing/forms/quick.py": (
        (
            lambda text: QuickPlateForm({"scale": text}, user=User()).errors,
            ("1 in = ", " ", "to ", "1:", "equals "),
        ),
    ),
    "fitting/dossier/loading/cautions.py": ((cautions._WIDE.search, ("skirt", "gowns", " ", "a ")),),
    "fitting/outfits/calculation/discretion.py": (
        (
            without_measures,
            (
                "10 12 ",
                "1",
                "1 ",
                "1-",
                "½",
                "waist ",
                "waist a ",
                "1 at the ",
                "- ",
                "± ",
                "1 and ",
                "a ",
                " ",
            ),
        ),
        (lambda text: without_sentences(text, NAMES), ("Ann ", "Ann", ". ", ".", "\n", "Ann. ", " ")),
        (lambda text: without_names(text, NAMES), ("Ann Lee ", "ANN", "Ann ", "-")),
        (
            lambda text: words_for_anybody(text, [f"Ann {at}" for at in range(1000)]),
            ("Ann ", "Ann", "Ann 1", "' ", " "),
        ),
    ),
    "fitting/wearers/calculation/layers.py": ((layer_kind_named, ("gown ", "s", "-", "’", " ")),),
    "fitting/templatetags/dossier.py": ((kept_together, ("± ", "1 ", "× ", " ", "1/2 ")),),
}

# Patterns that meet no text from outside, or only what another trial covers.
FREE = {
    "catalogue/drawing/showing.py": "paths of our own drawings",
    "catalogue/workroom/archive/rows.py": "three numbers with two dashes, and no more of a text",
    "catalogue/photographs/imaging.py": "names of files that the program makes",
    "catalogue/sources/exchange/bibtex/entries.py": "what the library read; see test_source_import.py",
    "catalogue/sources/exchange/bibtex/reading.py": "what the library read; see test_source_import.py",
    "catalogue/workroom/forms/as_of.py": "names of boxes, of which Django takes no more than 5,000",
    "fitting/pattern/forms/sums.py": "paths of faults that the program finds itself",
    "fitting/comparing/forms/quick_sheet.py": "paths of faults that the program finds itself",
    "fitting/comparing/showing/explanation.py": "paths of inputs that the program names itself",
    "fitting/dossier/showing/document.py": "what WeasyPrint logs",
    "fitting/laying/exchange/lay_answer.py": "a unit that was read as a length before",
    "fitting/wearers/showing.py": "lines of our own drawing",
}


class TooSlow(AssertionError):
    pass


@contextmanager
def within_a_second() -> Iterator[None]:
    def stop(*_: object) -> None:
        raise TooSlow(f"After {SECONDS} s of the processor's time it is still at it.")

    before = signal.signal(signal.SIGVTALRM, stop)
    # Again and again: what is raised while garbage is collected is lost.
    signal.setitimer(signal.ITIMER_VIRTUAL, SECONDS, SECONDS / 20)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


@pytest.mark.parametrize("module", TRIALS)
def test_a_megabyte_of_anything_is_read_or_refused_within_a_second(module):
    for read, fillers in TRIALS[module]:
        for filler in fillers:
            for text in ((filler * SIGNS)[:SIGNS], "1" + (filler * SIGNS)[: SIGNS - 2] + "?"):
                with within_a_second(), suppress(NotUnderstood, Faults, NotStrictJson):
                    read(text)


def test_every_module_with_patterns_is_tried_or_says_why_not():
    with_patterns = {
        path.relative_to(ROOT).as_posix()
        for app in ("catalogue", "fitting")
        for path in (ROOT / app).rglob("*.py")
        if "migrations" not in path.parts
        and re.search(r"^(import re|from re import .*)$", path.read_text(), re.M)
    }
    assert with_patterns == TRIALS.keys() | FREE.keys()
