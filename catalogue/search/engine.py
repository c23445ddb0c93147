"""Looking words up: SQLite by FTS5, PostgreSQL by its own text search, behind the same two functions."""

from dataclasses import dataclass

from django.db import connections
from django.db.models import QuerySet
from django.db.models.expressions import RawSQL


@dataclass(frozen=True, slots=True, kw_only=True)
class Engine:
    """SQL with one place for the words, and the two ways to write a word: begun like this, or just this."""

    cards: str
    ranked: str
    begun: str
    just: str
    between: str

    def query(self, words: tuple[str, ...]) -> str:
        # A word is letters and digits alone: nothing typed gets out of its quotes.
        return self.between.join((self.begun if len(word) > 1 else self.just).format(word) for word in words)


_FTS5 = Engine(
    cards="SELECT rowid FROM catalogue_index_words WHERE catalogue_index_words MATCH %s",
    ranked="""SELECT card.reference_id FROM catalogue_index_words
        JOIN catalogue_indexcard card ON card.id = catalogue_index_words.rowid
        WHERE catalogue_index_words MATCH %s AND card.reference_id IN ({rows})
        ORDER BY catalogue_index_words.rank, card.reference_id""",
    begun='"{}"*',
    just='"{}"',
    between=" ",
)
_POSTGRESQL = Engine(
    cards="SELECT id FROM catalogue_indexcard WHERE words @@ to_tsquery('simple', %s)",
    ranked="""SELECT card.reference_id FROM catalogue_indexcard card, to_tsquery('simple', %s) sought
        WHERE card.words @@ sought AND card.reference_id IN ({rows})
        ORDER BY ts_rank(card.words, sought, 1) DESC, card.reference_id""",
    begun="'{}':*",
    just="'{}'",
    between=" & ",
)
_ENGINES = {"sqlite": _FTS5, "postgresql": _POSTGRESQL}


def cards_with(words: tuple[str, ...], using: str) -> RawSQL:
    """The keys of the cards that hold every one of `words`, to filter with: `index_card__in=…`."""
    engine = _ENGINES[connections[using].vendor]
    return RawSQL(engine.cards, [engine.query(words)])  # noqa: S611 (the words are a parameter)


def references_by_rank(rows: QuerySet, words: tuple[str, ...]) -> list[int]:
    """The keys of those of `rows`, all of which hold the words, that answer them best first."""
    connection = connections[rows.db]
    engine = _ENGINES[connection.vendor]
    among, parameters = rows.order_by().values("pk").query.get_compiler(rows.db).as_sql()
    with connection.cursor() as cursor:
        cursor.execute(engine.ranked.format(rows=among), [engine.query(words), *parameters])
        return [key for (key,) in cursor.fetchall()]
