"""A lay asked for, and made by long work; what it says to buy."""

from datetime import datetime
from functools import partial
from typing import Any

from django.db import transaction

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from catalogue.workroom.models import User
from catalogue.workroom.reader.codec import to_json
from catalogue.workroom.work.engine import Attempt, ask
from fitting.laying.calculation.lay_out import lay_out
from fitting.laying.calculation.search import Progress
from fitting.laying.loading.orders import LayRequest, lay_request
from fitting.laying.models import Lay
from fitting.laying.showing.finished_lay import LaidWidth, finished_width
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.material import Material

# Which kind of material each cloth of a plate is bought as.
KINDS = {
    Piece.ClothRole.OUTER: Material.Kind.CLOTH,
    Piece.ClothRole.FACING: Material.Kind.CLOTH,
    Piece.ClothRole.LINING: Material.Kind.LINING,
    Piece.ClothRole.INTERLINING: Material.Kind.INTERLINING,
}


@transaction.atomic
def ask_for_lay(
    garment: Garment,
    *,
    cloth: str,
    request: LayRequest,
    by: User,
    at: datetime,
) -> Lay:
    """Keep what is asked, and have it laid."""
    lay = Lay.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        cloth=cloth,
        inputs=to_json(request),
        made_by=by,
        asked_at=at,
    )
    ask(lay, at=at)
    return lay


def make_lay(lay: Lay, attempt: Attempt) -> dict[str, Any]:
    """One width after the other, each kept as soon as it is laid. Raises Faults."""
    request = lay_request(lay.inputs)
    orders, lay.results = request.orders, []
    for number, order in enumerate(orders, start=1):
        watch = partial(_tell, attempt, number=number, count=len(orders))
        laid = lay_out(order, watch=watch)
        finished = finished_width(laid, request.unit, name=f"lay-{lay.key}-{number}", of=request.of)
        lay.results.append(to_json(finished))
        Lay.objects.filter(pk=lay.pk).update(results=lay.results)
    return {"results": lay.results}


def _tell(attempt: Attempt, progress: Progress, *, number: int, count: int) -> bool:
    """Say how far it is; whether to look any further."""
    done = number - 1 + progress.seconds / progress.of_seconds
    return attempt.tell(int(100 * done / count), f"width {number} of {count}, {progress.lays} lays found")


def lines_for(garment: Garment, cloth: str) -> list[Material]:
    """The lines a lay may be written into: of its kind, by the length, for its garment or for no other."""
    found = garment.outfit.materials.for_list_page().filter(kind=KINDS[cloth], needed_count=None)
    return sorted(
        (one for one in found if one.garment_id in (garment.pk, None)),
        key=lambda one: one.garment_id is None,
    )


@transaction.atomic
def write_what_to_buy(lay: Lay, *, width: LaidWidth, into: Material | None) -> tuple[Material, str]:
    """The line, new where `into` is None, and what it needed before, as typed.

    Its width is filled in where it has none; one that is there is left as it is.
    """
    material = into or Material(
        outfit=lay.garment.outfit,
        garment=lay.garment,
        kind=KINDS[lay.cloth],
        name=f"{lay.get_cloth_display().capitalize()} cloth for {lay.garment}"[:120],
    )
    before = material.needed_text
    material.needed = TypedLength.read(width.to_buy)
    if material.width is None:
        material.width = TypedLength.read(width.width_text)
    material.save()
    return material, before
