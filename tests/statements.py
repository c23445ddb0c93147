"""Which tests are run on the second database too: so many that nothing asked of the first is left out.

Most tests ask both databases the same. So it is noted, on the first, what each test says in SQL, its values
left out, and whether that was refused; the second runs so few tests that each statement is said by one of
them, a quick one. What values come to, and what two do at once, no statement tells: tests of that are all
run on both. With `--thorough` every test is.
"""

import json
import re
import zlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from time import process_time
from typing import Any

import pytest
from django.db import DatabaseError, connection

# Files and folders of tests that are run on both whole, and what lies in their values.
WHOLE = {
    "tests/finding/": "words are sought by each in its own way",
    "tests/lengths/": "how long a text may be, and how large a number",
    "tests/reading_room/test_archive_bounds.py": "the same, of what comes from outside",
    "tests/reading_room/test_reference_list.py": "what stands before what",
    "tests/sources/test_source_list.py": "the same",
    "tests/test_impossible_input.py": "numbers that a database may refuse",
    "tests/test_kept.py": "rows of before, migrated",
    "tests/test_migrations.py": "the tables themselves",
    "tests/workroom/test_deleted.py": "what is held while another waits",
    "tests/workroom/test_two_writers.py": "the same",
}

# Numbers in names and how many values a list has differ from run to run; what is asked does not.
_VALUES = re.compile(r"\d+|(?:%s, )+(?=%s)")


class Statements:
    """A plugin of pytest: it writes into `file` what each test said, and its seconds."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.said: dict[str, list[int]] = {}
        self.seconds: dict[str, float] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        if not item.get_closest_marker("database"):
            return (yield)
        started = process_time()
        with heard() as said:
            result = yield
        self.said[name_of(item)] = sorted(said)
        self.seconds[name_of(item)] = process_time() - started
        return result

    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        if hasattr(session.config, "workeroutput"):
            session.config.workeroutput["statements"] = (self.said, self.seconds)

    @pytest.hookimpl(optionalhook=True)
    def pytest_testnodedown(self, node: Any) -> None:
        for mine, told in zip((self.said, self.seconds), node.workeroutput["statements"], strict=True):
            mine.update(told)

    def pytest_unconfigure(self, config: pytest.Config) -> None:
        if not hasattr(config, "workeroutput"):
            self.file.write_text(json.dumps([self.said, self.seconds]))


@contextmanager
def heard() -> Iterator[set[int]]:
    """Each statement that is said meanwhile, as a number."""
    said: set[int] = set()

    def hear(execute: Callable, sql: Any, params: Any, many: bool, context: Mapping) -> Any:
        words = _VALUES.sub("", str(sql))
        try:
            answer = execute(sql, params, many, context)
        except DatabaseError:
            words += " -- refused"
            raise
        finally:
            said.add(zlib.crc32(words.encode()))
        return answer

    with connection.execute_wrapper(hear):
        yield said


def left_out(items: Sequence[pytest.Item], noted: Path) -> list[pytest.Item]:
    """Those that need not be run: all they say is said by others."""
    chosen = fewest(*json.loads(noted.read_text()))
    return [
        item for item in items if name_of(item) not in chosen and not name_of(item).startswith(tuple(WHOLE))
    ]


def name_of(item: pytest.Item) -> str:
    file, _, name = item.location
    return f"{file}::{name}"


def fewest(said: Mapping[str, Sequence[int]], seconds: Mapping[str, float]) -> set[str]:
    """So few tests that each statement is said by one of them: quick ones, none of which can be left out."""
    times: Counter[int] = Counter()
    chosen = []
    for test in sorted(said, key=lambda test: seconds[test]):
        if any(not times[one] for one in said[test]):
            times.update(said[test])
            chosen.append(test)
    for test in chosen[::-1]:
        if all(times[one] > 1 for one in said[test]):
            times.subtract(said[test])
            chosen.remove(test)
    return set(chosen)
