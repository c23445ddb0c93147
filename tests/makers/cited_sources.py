"""A source of every kind, invented, with letters and marks that formats stumble over."""

from datetime import date

from catalogue.sources.models import Source, readable_key

Kind = Source.Kind


def words(text: str) -> set[str]:
    return set(text.split())


ONE_OF_EACH = (
    Source(
        kind=Kind.BOOK,
        title="Press & Cupboard: 50% wool, #1_a",
        authors="Oxley-Tarn, Winifred",
        date="2004",
        publisher="Halfpenny Row",
        place="Thornby",
        identifier="978-0-306-40615-7; 0-306-40615-2; Hexley 12",
        edition="2",
        volume="1",
    ),
    Source(
        kind=Kind.CHAPTER,
        title="Gores",
        authors="Ash, A.; de la Çruz, José",
        container="Wide Skirts",
        editors="Birch, Bo",
        pages="5–9",
        date="1999",
    ),
    Source(
        kind=Kind.ARTICLE,
        title="Two waistcoats {cut}",
        authors="Abernagel, Léontine",
        volume="12",
        issue="3",
        container="The Seamside Quarterly",
        pages="44–61",
        date="2016-04",
        identifier="10.5555/seam_12<a>",
    ),
    Source(
        kind=Kind.MUSEUM_RECORD,
        title="Stays, half boned",
        authors="Thornby Museum",
        date="1911",
        publisher="Thornby Museum",
        place="Thornby",
        identifier="1911.48.2",
    ),
    Source(kind=Kind.TRADE_MANUAL, title="The Cutter’s Friend", authors="Strake, J. W.", date="1886"),
    Source(kind=Kind.FASHION_PLATE, title="Undress", container="The Lantern", date="1789~"),
    Source(kind=Kind.PAINTING, title="The egg-seller", authors="Unknown painter", date="about 1791"),
    Source(
        kind=Kind.WEB_PAGE,
        title="Hems",
        url="https://hems.example/a_b%20c?d=~e#f",
        accessed_on=date(2026, 11, 2),
    ),
    Source(
        kind=Kind.MANUSCRIPT,
        title="Day book",
        authors="Strake, J. W.",
        date="1801/1804",
        identifier="D 12/3",
        publisher="Thornby Record Office",
        place="Thornby",
        pages="7",
    ),
    Source(
        kind=Kind.OWN_STUDY,
        title="Notes on a bodice",
        authors="Marchbank, Odile",
        date="2024",
        rights="Our own.",
        notes="Two hours.\nOn a padded board.",
    ),
)
for source in ONE_OF_EACH:
    source.cite_key = readable_key(source)
