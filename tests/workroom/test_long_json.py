"""JSON read one value at a time says what JSON read whole says, in work that grows as the file does."""

import io
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader import long_json
from catalogue.workroom.reader.long_json import LongTable
from catalogue.workroom.reader.strict_json import DECODER, NotStrictJson, load, oddities

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inside: st.lists(inside, max_size=4) | st.dictionaries(st.text(), inside, max_size=4),
    max_leaves=12,
)


def whole(text: str) -> dict[str, object]:
    said: dict[str, object] = {}
    for key, member in LongTable(io.BytesIO(text.encode())).members():
        if member.opening == "{":
            said[key] = dict(member.values)
        else:
            said[key] = [value for _, value in member.values] if member.opening else member.value()
    return said


@given(document=st.dictionaries(st.text(), VALUES, max_size=5), indent=st.sampled_from([None, 1]))
def test_it_says_what_the_whole_says_wherever_a_window_ends(document, indent):
    text = json.dumps(document, indent=indent)
    for window in (1, 7, 64):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(long_json, "WINDOW", window)
            assert whole(text) == document


@given(text=st.text(alphabet='{}[]:,"\\ab1-.eE tru\n', max_size=40))
def test_whatever_it_reads_the_whole_says_too(text):
    try:
        said = whole(text)
    except NotStrictJson:
        return
    assert said == json.loads(text)


def test_what_nobody_asks_for_is_passed_over():
    table = LongTable(io.BytesIO(b'\xef\xbb\xbf{"a": [1, [2]], "b": {"c": 3}, "d": 4}'))
    assert [(key, member.opening) for key, member in table.members()] == [("a", "["), ("b", "{"), ("d", "")]


class Trying:
    """Counts the characters that the decoder is given to try."""

    def __init__(self) -> None:
        self.characters = 0

    def raw_decode(self, text: str, at: int) -> tuple[object, int]:
        try:
            value, end = DECODER.raw_decode(text, at)
        except json.JSONDecodeError:
            self.characters += len(text) - at
            raise
        self.characters += end - at
        return value, end


@pytest.mark.parametrize("length", [10, 70, 500, 3_000])
@pytest.mark.parametrize("count", [10, 1_000])
def test_the_work_grows_as_the_file_does(monkeypatch, length, count):
    """A value that does not end in its window is tried again, in one that is twice as long."""
    monkeypatch.setattr(long_json, "WINDOW", 64)
    monkeypatch.setattr(long_json, "DECODER", trying := Trying())
    text = json.dumps({"rows": ["a" * length] * count})
    assert len(whole(text)["rows"]) == count
    assert trying.characters < 4 * len(text)


class Name(str):
    """A key that counts how often it is held against another."""

    compared = 0
    __hash__ = str.__hash__

    def __eq__(self, other: object) -> bool:
        Name.compared += 1
        return str.__eq__(self, other)


@pytest.mark.parametrize("count", [1_000, 4_000])
def test_keys_that_come_twice_among_thousands_are_found_in_one_round(monkeypatch, count):
    monkeypatch.setattr(Name, "compared", 0)
    names = [Name(f"k{at}") for at in range(count)]
    said = DECODER.object_pairs_hook([(name, 1) for name in [*names, *names[:2], names[0]]])
    assert said.twice == ("k0", "k1")
    assert Name.compared < 4 * count


def test_every_key_that_comes_twice_and_every_number_that_is_none_is_told_with_its_path():
    said = load('{"a": [{"b": 1, "b": NaN}, {"c": {"d": -Infinity, "e": 2, "e": 2, "e": 2}}]}')
    assert [str(fault) for fault in oddities(said, "rows[3]")] == [
        "rows[3].a[0].b: This key comes twice.",
        "rows[3].a[0].b: NaN is not a number.",
        "rows[3].a[1].c.e: This key comes twice.",
        "rows[3].a[1].c.d: -Infinity is not a number.",
    ]


def test_a_value_nested_as_deep_as_can_be_read_is_walked_through():
    deep = load("[" * 900 + "NaN" + "]" * 900)
    assert len(list(oddities(deep, ""))) == 1


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("[1,]", "This is not JSON: Expecting value at line 1, column 4."),
        ("[" * 100_000, "This JSON cannot be read: it is nested too deeply."),
        ("9" * 5_000, "This JSON cannot be read: it holds a number of thousands of digits."),
        ('["\\ud800"]', "This JSON cannot be read: it holds half a letter."),
        ("[0" + ",0" * 500_000 + "]", "This JSON cannot be read: it holds more than 500,000 values at once."),
    ],
)
def test_what_cannot_be_read_at_all_is_one_fault(text, sentence):
    with pytest.raises(Faults) as raised:
        load(text)
    assert str(raised.value) == f"file: {sentence}"
