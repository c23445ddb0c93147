"""The story of the demo workroom as its file tells it, with the days moved to when it is loaded."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any, Self
from zoneinfo import ZoneInfo

FORMAT = "plate-and-toile demo workroom"
WORK_FORMAT = "plate-and-toile demo work"
FITTINGS_FORMAT = "plate-and-toile demo fittings"
PATTERN_WORK_FORMAT = "plate-and-toile demo pattern work"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    folder: Path
    rows: Mapping[str, Any]
    at: datetime
    later: timedelta

    @classmethod
    def read(cls, folder: Path, *, at: datetime) -> Self:
        rows = _read(folder / "workroom.json", FORMAT)
        return cls(folder=folder, rows=rows, at=at, later=at.date() - date.fromisoformat(rows["written_on"]))

    def day(self, text: str | None) -> date | None:
        """A day of the story, as many days from `at` as it is from the day of writing."""
        return date.fromisoformat(text) + self.later if text else None

    def noon(self, text: str) -> datetime:
        zone = ZoneInfo(self.rows["workroom"]["time_zone"])
        return datetime.combine(date.fromisoformat(text) + self.later, time(12), tzinfo=zone)

    def work(self) -> Mapping[str, Any]:
        """What was done on each outfit, by its key."""
        return _read(self.folder / "work.json", WORK_FORMAT)["outfits"]

    def fittings(self) -> Mapping[str, Any]:
        """Fittings, inlays, trials, what was changed on patterns, and what is shared."""
        return _read(self.folder / "fittings.json", FITTINGS_FORMAT)

    def pattern_work(self) -> Mapping[str, Any]:
        """Sheets of pattern work that were kept, and lays."""
        return _read(self.folder / "pattern_work.json", PATTERN_WORK_FORMAT)

    def plate(self, key: str) -> Mapping[str, Any]:
        """What was read off a plate."""
        return json.loads((self.folder / "plates" / f"{key}.json").read_text(encoding="utf-8"))


def _read(file: Path, form: str) -> Mapping[str, Any]:
    rows = json.loads(file.read_text(encoding="utf-8"))
    if (rows["format"], rows["version"]) != (form, 1):
        raise ValueError(f"{file} is not a {form} of version 1")
    return rows


def given(row: Mapping[str, Any], *names: str) -> dict[str, Any]:
    """Those of the named columns that the row states."""
    return {name: row[name] for name in names if name in row}
