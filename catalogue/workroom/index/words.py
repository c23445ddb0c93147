"""Text as the index sees it: small letters without accents, parted into words.

Done here and not by a database, so that every database finds the same.
"""

import re
import unicodedata

LONGEST_WORD = 60
MOST_WORDS = 12  # of those typed; whoever pastes a page looks for its beginning
LONGEST_TEXT = 60_000  # PostgreSQL refuses a card whose words pass a megabyte

# Letters that are no letter with a mark, and so do not come apart by themselves.
_LETTERS = str.maketrans({"æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ł": "l", "ı": "i"})
_WORD = re.compile(r"[^\W_]+")


def fold(text: str) -> list[str]:
    """The words of a text: “Brodé, 1911.48” gives brode, 1911 and 48; those at the head of a long one."""
    text = text[:LONGEST_TEXT]
    if text.isascii():  # the most of them, and there is nothing to take apart
        return [word[:LONGEST_WORD] for word in _WORD.findall(text.lower())]
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(_bare(sign) for sign in apart)
    # Once more: taking a mark away can leave a capital, as of İ.
    return [word[:LONGEST_WORD] for word in _WORD.findall(bare.casefold().translate(_LETTERS))]


def _bare(sign: str) -> str:
    if unicodedata.combining(sign):
        return ""
    # Rare number signs (of the Coptic calendar, say): a word to Python and SQLite, none to PostgreSQL.
    return " " if unicodedata.category(sign) in {"No", "Nl"} else sign


def folded(*texts: str) -> str:
    """A column of a card: each word led by a space, so that a word's start can be looked for."""
    return "".join(f" {word}" for text in texts for word in fold(text))[:LONGEST_TEXT]


def read_words(typed: str) -> tuple[str, ...]:
    """The words to look for, each once, of whatever was typed. Empty: there is no word in it."""
    return tuple(dict.fromkeys(fold(typed)))[:MOST_WORDS]


def is_begun_by(word: str, typed: str) -> bool:
    """Whether a word answers one typed: “stay” finds stays. One letter alone is a word of its own."""
    return word.startswith(typed) if len(typed) > 1 else word == typed
