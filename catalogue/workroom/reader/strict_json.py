"""JSON that means one thing: no key twice, no number that is none."""

import json
from typing import Any


class NotStrictJson(ValueError):
    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def load_strictly(text: str | bytes) -> Any:
    """Raises NotStrictJson."""
    try:
        return json.loads(text, object_pairs_hook=_each_key_once, parse_constant=_refuse_constant)
    except NotStrictJson:
        raise
    except json.JSONDecodeError as fault:
        raise NotStrictJson(f"Line {fault.lineno}, column {fault.colno}: {fault.msg}.") from None
    except RecursionError:
        raise NotStrictJson("Is nested too deeply.") from None
    except ValueError:  # not UTF-8, or a whole number of thousands of digits
        raise NotStrictJson("Is not JSON in UTF-8.") from None


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    said = dict(pairs)
    if len(said) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise NotStrictJson(f"The key “{twice}” stands twice in one object.")
    return said


def _refuse_constant(name: str) -> Any:
    raise NotStrictJson(f"{name} is not a number.")
