"""What a row out of a file says, for the rules of its kind that no column can say."""

from collections.abc import Iterator
from typing import Any

from catalogue.lengths.models import TypedLength

# The name of a column, and what is wrong there.
Broken = tuple[str, str]


class RowValues:
    """What a row of an archive says, column by column; None of a column that was faulty."""

    def __init__(self, said: dict[str, Any]) -> None:
        self._said = said

    def __getitem__(self, name: str) -> Any:
        return self._said.get(name)

    def um(self, name: str) -> int | None:
        length = TypedLength.of(self._said.get(name), signed=True)
        return length and length.um

    def is_said(self, name: str) -> bool:
        return name in self._said

    def more_than_nothing(self, *names: str, because: str) -> Iterator[Broken]:
        for name in names:
            if self.is_said(name) and not self.um(name):
                yield name, f"This must be more than nothing: {because}."
