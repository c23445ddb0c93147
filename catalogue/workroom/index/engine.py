"""Looking words up: SQLite by FTS5, PostgreSQL by its own text search, behind the same three functions."""

from dataclasses import dataclass

from django.db import connections
from django.db.models import QuerySet
from django.db.models.expressions import RawSQL


@dataclass(frozen=True, slots=True, kw_only=True)
class Engine:
    """SQL with a place for the words, and the ways to write them.

    `found` gives the keys of what cards are of; `ranked` those among `rows`, best first. A word is begun like
    this, or is just this; `in_column` holds all of them to one column of the card.
    """

    found: str
    ranked: str
    begun: str
    just: str
    between: str
    in_column: str

    def query(self, words: tuple[str, ...], column: str = "") -> str:
        # A word is letters and digits alone: nothing typed gets out of its quotes.
        written = self.between.join(
            (self.begun if len(word) > 1 else self.just).format(word) for word in words
        )
        return self.in_column.format(column=column, words=written) if column else written


_FTS5 = Engine(
    # LIMIT, CROSS, INDEXED BY and +: the words are looked up once and first, and not again for every card.
    found="""SELECT card.{of} FROM (SELECT rowid FROM catalogue_index_words
            WHERE catalogue_index_words MATCH %s LIMIT -1) AS word
        CROSS JOIN catalogue_indexcard AS card INDEXED BY what_cards_are_of ON card.id = word.rowid
        WHERE card.{of} IS NOT NULL""",
    ranked="""SELECT card.reference_id FROM (SELECT rowid, rank FROM catalogue_index_words
            WHERE catalogue_index_words MATCH %s LIMIT -1) AS word
        CROSS JOIN catalogue_indexcard AS card INDEXED BY what_cards_are_of ON card.id = word.rowid
        WHERE +card.reference_id IN ({rows}) ORDER BY word.rank, card.reference_id""",
    begun='"{}"*',
    just='"{}"',
    between=" ",
    in_column="{column} : ({words})",
)
_POSTGRESQL = Engine(
    found="""SELECT card.{of} FROM catalogue_indexcard AS card
        WHERE card.words @@ to_tsquery('simple', %s) AND card.{of} IS NOT NULL""",
    ranked="""SELECT card.reference_id FROM catalogue_indexcard AS card, to_tsquery('simple', %s) AS sought
        WHERE card.words @@ sought AND card.reference_id IN ({rows})
        ORDER BY ts_rank(card.words, sought, 1) DESC, card.reference_id""",
    begun="'{}':*",
    just="'{}'",
    between=" & ",
    in_column="{words}",  # its columns are not apart in the index: see `_keys`
)
_ENGINES = {"sqlite": _FTS5, "postgresql": _POSTGRESQL}


def references_with(words: tuple[str, ...], using: str, *, column: str = "") -> RawSQL:
    """The keys of the garments whose cards hold every one of `words`, all in that column if one is named."""
    return _keys("reference_id", words, using, column)


def sources_with(words: tuple[str, ...], using: str) -> RawSQL:
    return _keys("source_id", words, using)


def _keys(of: str, words: tuple[str, ...], using: str, column: str = "") -> RawSQL:
    vendor = connections[using].vendor
    engine = _ENGINES[vendor]
    sql, parameters = engine.found.format(of=of), [engine.query(words, column)]
    if column and vendor == "postgresql":
        # The index has narrowed it down to the few cards that are read here.
        for word in words:
            sql += f" AND (card.{column} || ' ') LIKE %s"
            parameters.append(f"% {word}%" if len(word) > 1 else f"% {word} %")
    return RawSQL(sql, parameters)  # noqa: S611 (of ours: what was typed is a parameter)


def references_by_rank(rows: QuerySet, words: tuple[str, ...]) -> list[int]:
    """The keys of those of `rows`, all of which hold the words, that answer them best first."""
    connection = connections[rows.db]
    engine = _ENGINES[connection.vendor]
    among, parameters = rows.order_by().values("pk").query.get_compiler(rows.db).as_sql()
    with connection.cursor() as cursor:
        cursor.execute(engine.ranked.format(rows=among), [engine.query(words), *parameters])
        return [key for (key,) in cursor.fetchall()]
