"""Rows as a table of comma-separated values, safe to open in a spreadsheet.

A cell that starts like a formula is led by an apostrophe, so that no program reckons or fetches what somebody
typed into a name (OWASP, CSV Injection: = + - @, tab and carriage return, and their full-width twins).
"""

import csv
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TextIO, TypeAlias

from django.db.models import Model, QuerySet

from catalogue.lengths.models import TypedLength

STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "|", "%")
# Without it some spreadsheets take UTF-8 for an older encoding.
BYTE_ORDER_MARK = "\ufeff"
ROWS_AT_A_TIME = 500

Cell: TypeAlias = Callable[[Any], Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreadsheet:
    """`rows`: those of a workroom, with all that `columns` ask of them: by heading, the cell."""

    name: str
    rows: Callable[[Any], QuerySet]
    columns: Mapping[str, Cell]

    def write(self, workroom: Model, to: TextIO) -> None:
        to.write(BYTE_ORDER_MARK)
        table = csv.writer(to)
        table.writerow(self.columns)
        for row in self.rows(workroom).iterator(chunk_size=ROWS_AT_A_TIME):
            table.writerow([safe(cell(row)) for cell in self.columns.values()])


def length_columns(
    words: str, length: Callable[[Any], TypedLength | None]
) -> dict[str, Callable[[Any], Any]]:
    """A length as typed, and in millimetres."""
    return {
        f"{words} as typed": lambda row: one.text if (one := length(row)) else "",
        f"{words} in mm": lambda row: round(one.mm, 4) if (one := length(row)) else None,
    }


def safe(value: Any) -> Any:
    """The cell as it may stand in a spreadsheet. Numbers are numbers, a minus sign and all."""
    if not isinstance(value, str):
        return "" if value is None else value
    return f"'{value}" if value.lstrip(" \xa0").startswith(STARTS_A_FORMULA) else value
