"""Full-text search over garments and sources: one interface, and two engines that answer alike.

What is looked in is folded and parted into words here, not by a database (`words`), and filed on a card
(`card`). An engine only looks the words up and ranks what it found (`engine`). Snippets are cut from the text
as written (`snippet`).
"""

from catalogue.search.card import fill_card
from catalogue.search.engine import cards_with, references_by_rank
from catalogue.search.snippet import Run, snippet
from catalogue.search.words import at_word_start, fold, read_words

__all__ = [
    "Run",
    "at_word_start",
    "cards_with",
    "fill_card",
    "fold",
    "read_words",
    "references_by_rank",
    "snippet",
]
