"""A sheet of pattern work kept with its garment; a working pattern begun, changed step by step, gone back."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from django.db import IntegrityError, transaction

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from catalogue.workroom.reader.codec import to_json
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.calculation.working.sentences import said
from fitting.pattern.calculation.working.steps import Outcome, outcome_of, take
from fitting.pattern.exchange.kept_pattern import asked_to_kept, pattern_of_kept, pattern_to_kept
from fitting.pattern.exchange.pattern_svg import ReadPattern
from fitting.pattern.loading.start import beginning_of
from fitting.pattern.loading.working import newest_version
from fitting.pattern.models import CuttingTick, WorkingVersion, WorkNote


def keep_work(
    garment: Garment,
    *,
    kind: str,
    inputs: Mapping[str, str],
    worked: SheetAnswer,
    by: User | None,
    at: datetime,
) -> WorkNote:
    """A note beside those kept before: none is ever written over."""
    return WorkNote.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        kind=kind,
        inputs=dict(inputs),
        results=to_json(worked),
        made_at=at,
        made_by=by,
    )


def tick_for_cutting(version: WorkingVersion, what: str, *, is_done: bool, by: User, at: datetime) -> None:
    """Say that something is done before this version is cut, or that it is not."""
    if is_done:
        CuttingTick.objects.get_or_create(
            version=version, what=what, defaults={"ticked_at": at, "ticked_by": by}
        )
    else:
        CuttingTick.objects.filter(version=version, what=what).delete()


class MadeMeanwhile(Exception):
    """Somebody made another version since the one that was looked at; `newest` is theirs."""

    def __init__(self, newest: WorkingVersion | None) -> None:
        self.newest = newest
        super().__init__("Another version was made meanwhile.")


def begin_pattern(
    garment: Garment, plates: Sequence[Plate], *, on: WorkingVersion | None, by: User, at: datetime
) -> WorkingVersion:
    """The first version, or a new beginning after others. Raises Faults where no piece can be enlarged."""
    beginning = beginning_of(garment, plates, by=by, at=at)
    if not beginning.pattern.pieces:
        sentence = "None of these plates has a piece that can be enlarged: trace one, or read its lengths."
        raise Faults([Fault("plates", sentence)])
    named = ", ".join(str(plate) for plate in plates)
    return _kept(
        garment,
        on=on,
        step=WorkingVersion.START,
        asked={},
        sentence=f"Begun from {named}, enlarged to full size.",
        changed={},
        broke=beginning.doubts,
        pattern=beginning.pattern,
        rests_on=beginning.rests_on,
        by=by,
        at=at,
    )


def take_step(version: WorkingVersion, asked: Any, *, by: User, at: datetime) -> WorkingVersion:
    """The version that a step makes of the newest one.

    Raises Faults where the step cannot be taken, MadeMeanwhile where the version is no longer the newest.
    """
    outcome = take(pattern_of_kept(version.pattern), asked, by.system)
    kept = asked_to_kept(asked)
    return _kept(
        version.garment,
        on=version,
        step=kept["step"],
        asked=kept["asked"],
        sentence=said(asked, by.system),
        changed=_changed_to_kept(outcome),
        broke=outcome.broke,
        pattern=outcome.pattern,
        rests_on=version.rests_on,
        by=by,
        at=at,
    )


def go_back(version: WorkingVersion, to: WorkingVersion, *, by: User, at: datetime) -> WorkingVersion:
    """A new version with the pieces of an earlier one. Raises MadeMeanwhile."""
    return _kept(
        version.garment,
        on=version,
        step=WorkingVersion.BACK,
        asked={"number": to.number},
        sentence=f"Back to version {to.number}.",
        changed={},
        broke=(),
        pattern=pattern_of_kept(to.pattern),
        rests_on=to.rests_on,
        by=by,
        at=at,
    )


def bring_in(
    garment: Garment, read: ReadPattern, *, file: str, on: WorkingVersion | None, by: User, at: datetime
) -> WorkingVersion:
    """A version whose pieces are those of a file. Where the file says no seams they stay as they were.

    Raises MadeMeanwhile.
    """
    before = pattern_of_kept(on.pattern) if on else Pattern(pieces=())
    brought = read.pattern if read.is_whole else replace(before, pieces=read.pattern.pieces)
    outcome = outcome_of(before, brought, by.system)
    names = ", ".join(piece.name for piece in brought.pieces)
    return _kept(
        garment,
        on=on,
        step=WorkingVersion.BROUGHT_IN,
        asked={"file": file},
        sentence=f"Brought in from “{file}”: {names}.",
        changed=_changed_to_kept(outcome),
        broke=(*read.notes, *outcome.broke),
        pattern=brought,
        rests_on=on.rests_on if on else {},
        by=by,
        at=at,
    )


def _changed_to_kept(outcome: Outcome) -> dict[str, Any]:
    return {
        name: {figure: list(pair) for figure, pair in rows.items()} for name, rows in outcome.changed.items()
    }


def _kept(
    garment: Garment,
    *,
    on: WorkingVersion | None,
    step: str,
    asked: Mapping[str, Any],
    sentence: str,
    changed: Mapping[str, Any],
    broke: Sequence[str],
    pattern: Pattern,
    rests_on: Mapping[str, Any],
    by: User,
    at: datetime,
) -> WorkingVersion:
    """Raises MadeMeanwhile unless `on` is the newest; of two at the same moment the database keeps one."""
    newest = newest_version(garment)
    if (newest and newest.pk) != (on and on.pk):
        raise MadeMeanwhile(newest)
    try:
        with transaction.atomic():
            return WorkingVersion.objects.create(
                garment=garment,
                wearer=garment.outfit.wearer,
                number=newest.number + 1 if newest else 1,
                made_from=on,
                step=step,
                asked=dict(asked),
                said=sentence,
                changed=dict(changed),
                broke=list(broke),
                pattern=pattern_to_kept(pattern),
                rests_on=dict(rests_on),
                made_at=at,
                made_by=by,
            )
    except IntegrityError:
        raise MadeMeanwhile(newest_version(garment)) from None
