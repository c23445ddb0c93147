"""The demo, loaded once in a run for each day that tests have it told on. Whoever asks gets a copy."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from django.conf import settings
from django.test import override_settings

from fitting.outfits.models.garment import Garment
from fitting.site.demo import load_demo_workroom
from fixtures.demo.draw.garments import PLATES
from tests import databases

DEMO = Path(settings.BASE_DIR) / "fixtures" / "demo"
ARCHIVE = DEMO / "archive"
SAID = json.loads((ARCHIVE / "catalogue.json").read_text(encoding="utf-8"))
# What it says of each plate that was drawn, by the key of its draft: no two have the same pieces.
PLATES_SAID = {
    draft.key: plate
    for reference in SAID["references"]
    for plate in reference["plates"]
    for draft in PLATES
    if [piece.name for piece in draft.pieces] == [piece["name"] for piece in plate["pieces"]]
}
WRITTEN = datetime(2026, 11, 25, 9, tzinfo=UTC)
YEARS_LATER = WRITTEN + timedelta(days=1234)


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """`folder` holds its pictures and tiles, for all who ask: they are to be looked at only."""

    at: datetime
    folder: Path

    @property
    def shown(self) -> Garment:
        """The garment to show first."""
        return Garment.objects.get(pk=int((self.folder / "shown.txt").read_text()))


@contextmanager
def demo_told_at(at: datetime) -> Iterator[Demo]:
    """Meanwhile the test database is a copy of one in which the demo was loaded, and nothing else."""
    folder = databases.once(f"demo_{at:%Y_%m_%d}", lambda folder: _load(folder, at))
    databases.become(folder)
    yield Demo(at=at, folder=folder)
    databases.become(databases.migrated())


def _load(folder: Path, at: datetime) -> None:
    with override_settings(DATA_DIR=folder):
        shown = load_demo_workroom(DEMO, at=at)
    (folder / "shown.txt").write_text(str(shown.pk))
    databases.keep(folder)
