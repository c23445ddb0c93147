"""A garment's working pattern as it is kept: its newest version, and what of it is out of date."""

from dataclasses import dataclass
from datetime import datetime

from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from fitting.comparing.loading.case import outfit_rows
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.exchange.kept_pattern import pattern_of_kept
from fitting.pattern.loading.start import rests_on
from fitting.pattern.models import WorkingVersion

PLATE = "plate "


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingPattern:
    """The newest version and its pieces: what everything that is printed, walked, laid or cut reads."""

    version: WorkingVersion
    pattern: Pattern


def newest_version(garment: Garment) -> WorkingVersion | None:
    return garment.pattern_versions.newest_first().first()


def working_pattern(garment: Garment) -> WorkingPattern | None:
    """None where none was begun."""
    version = newest_version(garment)
    return WorkingPattern(version=version, pattern=pattern_of_kept(version.pattern)) if version else None


def what_has_changed(version: WorkingVersion, *, by: User, at: datetime) -> list[str]:
    """What the pattern rests on and is no longer as it was, in a sentence each; none: it is up to date."""
    keys = [name.removeprefix(PLATE) for name in version.rests_on if name.startswith(PLATE)]
    plates = list(Plate.objects.for_detail_page().filter(key__in=keys))
    rows = outfit_rows(version.garment.outfit, by=by, at=at)
    now = rests_on(version.garment, plates, rows)
    sentences = []
    for name, before in version.rests_on.items():
        today = now.get(name)
        if today is None:
            sentences.append(f"{_capital(before['called'])}, on which this pattern rests, is gone.")
        elif today["as"] != before["as"]:
            newer = "" if today["called"] == before["called"] else f"; now it is {today['called']}"
            sentences.append(f"{_capital(before['called'])} changed after this pattern was begun{newer}.")
    return sentences


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
