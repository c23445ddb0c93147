"""How many examples a property is tried with: a quarter for each change, all with `--thorough`."""

import hypothesis

ALL, FOR_EACH_CHANGE = 100, 25


def examples(most: int) -> int:
    """Of a test that needs more or fewer than the usual number."""
    return most * hypothesis.settings().max_examples // ALL
