"""Full-text search over garments and sources: one interface, and two engines that answer alike.

What is looked in is folded and parted into words here, not by a database (`words`), and filed on a card
(`filing`, `card`). An engine only looks the words up and ranks what it found (`engine`). Snippets are cut
from the text as written (`snippet`).
"""

from catalogue.workroom.index.engine import references_by_rank, references_with, sources_with
from catalogue.workroom.index.snippet import Run, snippet
from catalogue.workroom.index.words import read_words

__all__ = [
    "Run",
    "read_words",
    "references_by_rank",
    "references_with",
    "snippet",
    "sources_with",
]
