"""JSON too long to be held whole: the members of its outermost table, and of each its values, one by one.

Of the file a window is read at a time. A value that does not end in it is tried again in a window twice as
long, so that the work grows with the file and no faster, up to more characters and values inside than any
honest one has.
"""

import codecs
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, Any

from catalogue.workroom.reader.strict_json import DECODER, NotStrictJson, as_told, refuse_too_many

WINDOW = 1024 * 1024
# A garment with twenty plates, all traced, has a third of it.
MOST_CHARACTERS, MOST_MEMBERS = 4 * WINDOW, 100
# Of what may be cut in two where a window ends, texts aside.
LONGEST_WORD = len("-Infinity")
NO_JSON = "This is not JSON"
_SPACE = re.compile(r"[ \t\r\n]*")
_CLOSING = {"{": "}", "[": "]"}


@dataclass(frozen=True, slots=True)
class JsonMember:
    """`opening`: "{" of a table, whose values come by key, "[" of a list, by number, "" of one value."""

    opening: str
    values: Iterator[tuple[str | int, Any]]

    def value(self) -> Any:
        """The one value; None in place of a table or a list."""
        return None if self.opening else next(self.values)[1]


class LongTable:
    """Raises NotStrictJson, while it is read, at what is no such JSON and at a value that is too long.

    A key that comes twice within a value, and a number that is none, are left to whoever reads that.
    """

    def __init__(self, opened: IO[bytes]) -> None:
        self._opened = opened
        self._decoder = codecs.getincrementaldecoder("utf-8-sig")()
        self._window, self._at, self._is_last, self._let_go = "", 0, False, 0

    @property
    def characters(self) -> int:
        """So many were read until now."""
        return self._let_go + self._at

    def members(self) -> Iterator[tuple[str, JsonMember]]:
        """Each key with what stands there; what nobody asks a member for is passed over."""
        keys: set[str] = set()
        for key in map(str, self._keys("{")):
            if key in keys:
                raise NotStrictJson(f"the key “{key}” comes twice")
            keys.add(key)
            if len(keys) > MOST_MEMBERS:
                raise NotStrictJson(f"it has more than {MOST_MEMBERS} members")
            opening = self._next() if self._next() in _CLOSING else ""
            values = self._inside(opening)
            yield key, JsonMember(opening, values)
            for _ in values:
                pass
        if self._next():
            raise NotStrictJson("something stands behind its end", NO_JSON)

    def _inside(self, opening: str) -> Iterator[tuple[str | int, Any]]:
        for key in self._keys(opening) if opening else ("",):
            yield key, self._value()

    def _keys(self, opening: str) -> Iterator[str | int]:
        """Up to each value of a table or a list in turn; it is read before the next is asked for."""
        self._take(opening)
        number = 0
        while self._next() != _CLOSING[opening]:
            if number:
                self._take(",")
            yield self._key() if opening == "{" else number
            number += 1
        self._take(_CLOSING[opening])

    def _key(self) -> str:
        if self._next() != '"':
            raise NotStrictJson("a key in quotation marks is missing", NO_JSON)
        key = str(self._value())
        self._take(":")
        return key

    def _take(self, mark: str) -> None:
        if self._next() != mark:
            raise NotStrictJson(f"“{mark}” is missing", NO_JSON)
        self._at += 1

    def _next(self) -> str:
        """The mark at which reading goes on; nothing at the end."""
        while True:
            self._at = _SPACE.match(self._window, self._at).end()  # type: ignore[union-attr]
            if self._at < len(self._window) or not self._read_on():
                return self._window[self._at : self._at + 1]

    def _value(self) -> Any:
        self._next()
        while True:
            try:
                value, end = DECODER.raw_decode(self._window, self._at)
            except json.JSONDecodeError as fault:
                is_cut = "Unterminated" in fault.msg or fault.pos > len(self._window) - LONGEST_WORD
                if not is_cut or not self._read_on():
                    raise NotStrictJson(fault.msg, NO_JSON) from None
            except (ValueError, RecursionError) as fault:
                raise as_told(fault) from None
            else:
                # A number at the end of the window may go on behind it, as 1 in “1.” does.
                if end < len(self._window) - LONGEST_WORD or not self._read_on():
                    self._at = end
                    return value

    def _read_on(self) -> bool:
        """Let go of what was read, and make the window twice as long; False where the file has no more."""
        if self._is_last:
            return False
        self._let_go += self._at
        self._window, self._at = self._window[self._at :], 0
        if len(self._window) > MOST_CHARACTERS:
            raise NotStrictJson(f"one of its values has more than {MOST_CHARACTERS:,} characters")
        refuse_too_many(self._window)
        part = self._opened.read(max(WINDOW, len(self._window)))
        self._is_last = not part
        try:
            self._window += self._decoder.decode(part, self._is_last)
        except UnicodeDecodeError:
            raise NotStrictJson("it is not text in UTF-8") from None
        return True
