"""What an archive says of each kind of row. Lengths stand without their `_um`: `"reading": "3/4 in"`.

Each subject tells its own kinds, in its `kinds.py`, and is read when the app starts; `LISTS` and the parts of
a kind are filled as that happens, so that nothing here knows what a workroom holds.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Field, Model

from catalogue.lengths.models import LengthField


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """`points_to`: fields that hold another row, and the list of the archive that it stands in.

    `parts`: lists of rows that stand inside this one, by the name the row has for them; `only`: at most one.
    `order`: the names of the parts as they stand in an archive, where subjects above add some of them.
    `files`: the folder in the archive with the file that each row has. `derived`: columns of the row that
    follow from what the archive says. `geometry`: for each column of points or maps, what raises Faulty at
    one that our own pages would not keep.
    """

    model: type[Model]
    columns: tuple[str, ...]
    points_to: dict[str, str] = field(default_factory=dict)
    parts: dict[str, "Kind"] = field(default_factory=dict)
    order: tuple[str, ...] = ()
    only: dict[str, "Kind"] = field(default_factory=dict)
    files: str = ""
    derived: Callable[[dict[str, Any]], dict[str, Any]] = lambda said: {}
    geometry: dict[str, Callable[[Any], None]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, check in self.geometry.items():
            GEOMETRY[self.model, name] = check

    def add_part(self, name: str, part: "Kind") -> None:
        """Take in a part that only a subject above this one knows. Raises ValueError: no place in `order`."""
        known = {**self.parts, name: part}
        self.parts.clear()
        self.parts.update({one: known[one] for one in sorted(known, key=self.order.index)})

    @property
    def has_key(self) -> bool:
        return any(one.name == "key" for one in self.model._meta.fields)

    def fields(self) -> dict[str, Field]:
        """Each column by the name it has in an archive."""
        columns = [self.model._meta.get_field(name) for name in self.columns]
        return {archive_name(column): column for column in columns}


# The lists of an archive in the order they are written and taken.
LISTS: dict[str, Kind] = {}
# What checks each column that holds points or maps.
GEOMETRY: dict[tuple[type[Model], str], Callable[[Any], None]] = {}


def archive_name(column: Field) -> str:
    if isinstance(column, LengthField):
        return column.length_name or column.name.removesuffix("_um")
    return column.name
