"""JSON that means one thing: no key twice, no number that is none; and holds no more than fits in memory."""

import json
from typing import Any

# Each mark is a value in memory, of up to 100 bytes however little it takes in the file.
MARKS, MOST_MARKS = "[{,:", 500_000


class NotStrictJson(ValueError):
    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def load_strictly(text: str) -> Any:
    """Raises NotStrictJson."""
    refuse_too_many(text)
    try:
        return DECODER.decode(text)
    except json.JSONDecodeError as fault:
        raise NotStrictJson(f"Line {fault.lineno}, column {fault.colno}: {fault.msg}.") from None
    except (ValueError, RecursionError) as fault:
        raise as_told(fault) from None


def refuse_too_many(text: str) -> None:
    if sum(map(text.count, MARKS)) > MOST_MARKS:
        raise NotStrictJson(f"Holds more than {MOST_MARKS:,} values at once.")


def as_told(fault: Exception) -> NotStrictJson:
    """What the decoder cannot read though it is JSON, in a sentence."""
    if isinstance(fault, NotStrictJson):
        return fault
    if isinstance(fault, RecursionError):
        return NotStrictJson("Is nested too deeply.")
    return NotStrictJson("Holds a number of thousands of digits.")


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    said = dict(pairs)
    if len(said) < len(pairs):
        seen: set[str] = set()
        twice = next(name for name, _ in pairs if name in seen or seen.add(name))
        raise NotStrictJson(f"The key “{twice}” stands twice in one object.")
    return said


def _refuse_constant(name: str) -> Any:
    raise NotStrictJson(f"{name} is not a number.")


DECODER = json.JSONDecoder(object_pairs_hook=_each_key_once, parse_constant=_refuse_constant)
