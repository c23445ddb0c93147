"""A lay asked for, made in a process of its own, stopped with the best found so far; what it says to buy."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from django.db import transaction
from django.utils import timezone

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from catalogue.workroom.faults import note_fault
from catalogue.workroom.models import User
from catalogue.workroom.process import start_command
from fitting.laying.calculation.lay_out import lay_out
from fitting.laying.calculation.search import Progress
from fitting.laying.loading.orders import orders_in
from fitting.laying.models import Lay
from fitting.laying.showing.laid import WidthLaid, laid_to_json
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.material import Material

TOLD_EVERY = timedelta(seconds=0.4)
KILLED = "The process that made it was stopped. What it had laid by then is kept."
# Which kind of material each cloth of a plate is bought as.
KINDS = {
    Piece.Cloth.OUTER: Material.Kind.CLOTH,
    Piece.Cloth.FACING: Material.Kind.CLOTH,
    Piece.Cloth.LINING: Material.Kind.LINING,
    Piece.Cloth.INTERLINING: Material.Kind.INTERLINING,
}


@transaction.atomic
def ask_for_lay(
    garment: Garment,
    *,
    cloth: str,
    form: dict[str, str],
    asked: Mapping[str, Any],
    graded: Sequence[str],
    by: User,
    at: datetime,
) -> Lay:
    """Keep what is asked (`loading.orders.asked_of`), and start the process once the row can be seen."""
    lay = Lay.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        cloth=cloth,
        inputs={"form": form, "graded": list(graded), **asked},
        made_by=by,
        asked_at=at,
        heartbeat=at,
    )
    transaction.on_commit(partial(_start, lay))
    return lay


def stop_lay(lay: Lay) -> None:
    """Look no further: what was found so far is the lay."""
    Lay.objects.filter(pk=lay.pk, state__in=Lay.UNFINISHED).update(is_stop_asked=True)


def sweep_lay(lay: Lay) -> None:
    """Say in its row that its process was killed."""
    silent = Lay.objects.filter(pk=lay.pk, state__in=Lay.UNFINISHED, heartbeat=lay.heartbeat)
    silent.update(state=Lay.State.FAILED, fault=KILLED)


def make_lay(pk: int) -> None:
    """Lay every width of a waiting row. Whatever goes wrong is said in the row, never raised."""
    waiting = Lay.objects.filter(pk=pk, state=Lay.State.WAITING)
    # Two processes may have been started for it: only one update can win.
    if not waiting.update(state=Lay.State.RUNNING, heartbeat=timezone.now()):
        return
    lay = Lay.objects.get(pk=pk)
    try:
        lay_widths(lay)
    except Faults as faults:
        _end(lay, state=Lay.State.FAILED, fault=" ".join(fault.sentence for fault in faults.faults))
    except Exception as fault:
        # The process has no screen: what is not said in the row is never seen.
        _end(lay, state=Lay.State.FAILED, fault=note_fault(fault))
    else:
        _end(lay, state=Lay.State.DONE, fault="")


def lay_widths(lay: Lay) -> None:
    """One width after the other, each kept as soon as it is laid. Raises Faults."""
    orders = orders_in(lay.inputs)
    for number, order in enumerate(orders, start=1):
        watch = _Watch(lay, number=number, count=len(orders))
        lay.results.append(
            laid_to_json(lay_out(order.order, watch=watch), order.unit, name=f"lay-{lay.key}-{number}")
        )
        Lay.objects.filter(pk=lay.pk).update(results=lay.results, heartbeat=timezone.now())


def _start(lay: Lay) -> None:
    try:
        start_command("lay_make", str(lay.pk))
    except OSError as fault:
        said = f"The process that makes it could not be started: {fault.strerror}."
        _end(lay, state=Lay.State.FAILED, fault=said)


def _end(lay: Lay, *, state: str, fault: str) -> None:
    Lay.objects.filter(pk=lay.pk).update(
        state=state, fault=fault, progress=100, step="", heartbeat=timezone.now()
    )


class _Watch:
    """Tells the row how far it is, and learns from it whether to look any further."""

    def __init__(self, lay: Lay, *, number: int, count: int) -> None:
        self.row = Lay.objects.filter(pk=lay.pk)
        self.number, self.count = number, count
        self.told_at: datetime | None = None
        self.goes_on = True

    def __call__(self, progress: Progress) -> bool:
        now = timezone.now()
        if self.told_at and now - self.told_at < TOLD_EVERY:
            return self.goes_on
        self.told_at = now
        done = self.number - 1 + progress.seconds / progress.of_seconds
        step = f"width {self.number} of {self.count}, {progress.lays} lays found"
        # A row that is gone has nobody waiting for it.
        is_there = self.row.update(progress=int(100 * done / self.count), step=step, heartbeat=now)
        self.goes_on = bool(is_there) and not self.row.filter(is_stop_asked=True).exists()
        return self.goes_on


def lines_for(garment: Garment, cloth: str) -> list[Material]:
    """The lines a lay may be written into: of its kind, by the length, for its garment or for no other."""
    found = garment.outfit.materials.for_list_page().filter(kind=KINDS[cloth], needed_count=None)
    return sorted(
        (one for one in found if one.garment_id in (garment.pk, None)),
        key=lambda one: one.garment_id is None,
    )


@transaction.atomic
def write_what_to_buy(lay: Lay, *, width: WidthLaid, into: Material | None) -> tuple[Material, str]:
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
