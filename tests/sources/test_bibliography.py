"""Entries as they are printed. The style is our own: what is held against each is how it should read."""

from datetime import date

import pytest

from catalogue.sources.models import Source
from catalogue.sources.showing import bibliography, cite

Kind = Source.Kind


@pytest.mark.parametrize(
    ("source", "entry"),
    [
        (
            Source(kind=Kind.BOOK, authors="Oxley-Tarn, Winifred", title="From the Press Cupboard",
                   place="Thornby Regis", publisher="Halfpenny Row Press", date="2004"),
            "Oxley-Tarn, Winifred. <i>From the Press Cupboard</i>. Thornby Regis: Halfpenny Row Press, 2004.",
        ),
        (
            Source(kind=Kind.ARTICLE, authors="Abernagel, Leontine; Sauvade, Rémy", title="Two waistcoats",
                   container="The Seamside Quarterly 12", publisher="Seamside Circle", date="2016"),
            "Abernagel, Leontine, and Rémy Sauvade. “Two waistcoats”. In <i>The Seamside Quarterly 12</i>. "
            "Seamside Circle, 2016.",
        ),
        (
            Source(kind=Kind.CHAPTER, authors="Ash, A.; Birch, B.; Cedar, C.", title="What is a gore?",
                   container="Wide Skirts", date="1999"),
            "Ash, A., B. Birch, and C. Cedar. “What is a gore?” In <i>Wide Skirts</i>, 1999.",
        ),
        (
            Source(kind=Kind.MUSEUM_RECORD, title="Stays, half boned", publisher="Thornby Regis Museum",
                   place="Thornby Regis", date="1911", identifier="1911.48.2"),
            "Stays, half boned. Museum record. 1911. Thornby Regis Museum, Thornby Regis, 1911.48.2.",
        ),
        (
            Source(kind=Kind.PAINTING, authors="Unknown painter", title="The egg-seller at Thornby fair",
                   publisher="Thornby Regis Museum", date="1791", identifier="P.61"),
            "Unknown painter. <i>The egg-seller at Thornby fair</i>. Painting. 1791. "
            "Thornby Regis Museum, P.61.",
        ),
        (
            Source(kind=Kind.FASHION_PLATE, title="Undress", container="The Lantern", date="1789"),
            "“Undress”. Fashion plate. In <i>The Lantern</i>. 1789.",
        ),
        (
            Source(kind=Kind.WEB_PAGE, title="Hems", publisher="Hems & Co", date="2020", url="https://hems.example/a"),
            "“Hems”. Hems &amp; Co, 2020. <a href=\"https://hems.example/a\">https://hems.example/a</a>.",
        ),
        (
            Source(kind=Kind.OWN_STUDY, authors="Marchbank, Odile", title="Notes on a bodice", date="2024"),
            "Marchbank, Odile. Notes on a bodice. Own study. 2024.",
        ),
        (
            Source(kind=Kind.BOOK, authors="Strake, J. W.", title="The Cutter’s Friend", edition="2",
                   volume="1", place="Hexley", publisher="Pell & Tansley", date="1886",
                   identifier="978-0-00-000000-2"),
            "Strake, J. W. <i>The Cutter’s Friend</i>. 2nd edition. Volume 1. Hexley: "
            "Pell &amp; Tansley, 1886. 978-0-00-000000-2.",
        ),
        (
            Source(kind=Kind.ARTICLE, authors="Abernagel, Leontine", title="Two waistcoats", volume="12",
                   issue="3", container="The Seamside Quarterly", pages="44–61", date="2016",
                   identifier="10.5555/seam.12"),
            "Abernagel, Leontine. “Two waistcoats”. In <i>The Seamside Quarterly</i> 12, no. 3, 44–61, "
            "2016. 10.5555/seam.12.",
        ),
        (
            Source(kind=Kind.CHAPTER, authors="Ash, A.", title="Gores", container="Wide Skirts", pages="5–9",
                   editors="Birch, Bo; Cedar, Cy", place="Hexley", publisher="Pell", date="1999"),
            "Ash, A. “Gores”. In <i>Wide Skirts</i>, edited by Bo Birch and Cy Cedar, 5–9. "
            "Hexley: Pell, 1999.",
        ),
        (
            Source(kind=Kind.WEB_PAGE, title="Hems", url="https://hems.example/a",
                   accessed_on=date(2026, 11, 2)),
            "“Hems”. <a href=\"https://hems.example/a\">https://hems.example/a</a>. "
            "Looked at 2 November 2026.",
        ),
        (
            Source(kind=Kind.MANUSCRIPT, authors="Strake, J. W.", title="Day book", date="1801–1804",
                   publisher="Thornby Record Office", place="Thornby", identifier="D 12/3", pages="fol. 7"),
            "Strake, J. W. Day book. Manuscript. 1801–1804. Thornby Record Office, Thornby, D 12/3, fol. 7.",
        ),
        (
            Source(kind=Kind.FASHION_PLATE, title="Undress", container="The Lantern", date="1789-05"),
            "“Undress”. Fashion plate. In <i>The Lantern</i>. May 1789.",
        ),
        (Source(kind=Kind.PAINTING, title="Fair", date="1790~"), "<i>Fair</i>. Painting. About 1790."),
        (Source(kind=Kind.BOOK, title="Gores", publisher="Pell", date="1790~/1795"),
         "<i>Gores</i>. Pell, about 1790 to 1795."),
        (Source(kind=Kind.BOOK, title="Gores", date="[1790]"), "<i>Gores</i>. [1790]."),
        (Source(kind=Kind.BOOK, title="Bare"), "<i>Bare</i>."),
    ],
    ids=lambda value: value.kind if isinstance(value, Source) else "",
)  # fmt: skip
def test_each_kind_has_its_form(source, entry):
    assert cite(source) == entry


def test_what_was_typed_is_never_taken_for_markup():
    entry = cite(Source(kind=Kind.BOOK, title="<img src='file:///etc/passwd'>", authors="<b>"))
    assert "<img" not in entry
    assert "<b>" not in entry


def test_entries_stand_by_author_else_by_title_without_its_article_and_once_each():
    zoe = Source(pk=1, kind=Kind.BOOK, title="A", authors="Zoe")
    the_bee = Source(pk=2, kind=Kind.BOOK, title="The Bee")
    adam = Source(pk=3, kind=Kind.BOOK, title="Z", authors="adam")
    assert bibliography([zoe, the_bee, adam, zoe]) == [cite(adam), cite(the_bee), cite(zoe)]


def test_an_accent_does_not_send_an_author_to_the_end_and_works_of_one_stand_by_date():
    late, early = (Source(pk=pk, kind=Kind.BOOK, title=title, authors="Étoile, Ada", date=date)
                   for pk, title, date in ((1, "A", "1801"), (2, "B", "1790")))  # fmt: skip
    zoe, eve = (
        Source(pk=pk, kind=Kind.BOOK, title="C", authors=name) for pk, name in ((3, "Zoe"), (4, "Eve"))
    )
    assert bibliography([zoe, late, early, eve]) == [cite(early), cite(late), cite(eve), cite(zoe)]
