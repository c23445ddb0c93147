"""Keeping a sheet of pattern work with its garment."""

from collections.abc import Mapping
from datetime import datetime

from catalogue.workroom.models import User
from catalogue.workroom.reader.codec import to_json
from fitting.outfits.models.garment import Garment
from fitting.pattern.loading.sheet_answer import SheetAnswer
from fitting.pattern.models import WorkNote


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
