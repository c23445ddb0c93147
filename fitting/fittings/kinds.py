"""What a workroom holds of fittings, alterations, inlays and toiles; which hours there are appointments."""

import io
from collections.abc import Callable
from typing import IO
from uuid import uuid4

from catalogue.photographs.actions import keep_copies
from catalogue.photographs.imaging import MOST_BYTES, read_own
from catalogue.workroom.actions.custom import keep_by_the_clock
from catalogue.workroom.kinds import Kind, register
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure


def _keep(photo: ObservationPhoto, opens: Callable[[], IO[bytes]]) -> None:
    photo.stem, photo.width, photo.height = uuid4().hex, 0, 0
    with opens() as opened:
        prepared = read_own(io.BytesIO(opened.read()))
    keep_copies(photo, prepared)


register(
    Kind(model=Fitting, part_of="outfit"),
    Kind(model=Observation, part_of="fitting"),
    Kind(
        model=ObservationPhoto,
        part_of="observation",
        left_out=("stem", "width", "height"),
        files="fittings/",
        most=MOST_BYTES,
        keep=_keep,
    ),
    Kind(model=Inlay, part_of="garment"),
    Kind(model=Trial, part_of="garment"),
    Kind(model=TrialMeasure, part_of="trial", once="line"),
    # It points to fittings, which point to garments: it stands behind both.
    Kind(model=Alteration, name="alterations"),
    Kind(model=AlterationPart, part_of="alteration", once="part"),
)
keep_by_the_clock(Fitting, "planned_for")
