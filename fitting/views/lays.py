"""The lay: what to lay on which cloth, how far it is, and what to buy."""

from collections.abc import Mapping

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.access import open_for_edit, open_for_look
from catalogue.bridge import cloths_of
from catalogue.measuring.scale import ScaleNotUnderstood
from catalogue.measuring.tracing import TracedShape
from catalogue.models import Piece, Plate
from catalogue.models.length import TypedLength
from fitting.actions.lay import ask_for_lay, stop_lay, sweep_lay
from fitting.bridge.pattern_work.graded import graded_garment
from fitting.bridge.pattern_work.laid import widths_laid
from fitting.bridge.pattern_work.pieces import PieceToLay, pieces_to_lay
from fitting.bridge.pattern_work.traced import traced_plate
from fitting.forms.lay import LayForm, first_values
from fitting.models import Garment, Lay

LOOK_AGAIN_SECONDS = 1
GRADED = "graded"
ALLOWANCE = TypedLength(text="1/2 in", um=12_700)  # common practice, no source


def lay_add(request: HttpRequest, pk: int) -> HttpResponse:
    """The pieces of one cloth at a time; `cloth` in the address says which."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    plate = garment.plate_id and Plate.objects.for_detail_page().get(pk=garment.plate_id)
    cloths = cloths_of(plate) if plate else []
    cloth = request.GET.get("cloth", "")
    cloth = cloth if cloth in cloths else next(iter(cloths), Piece.Cloth.OUTER)
    cut = GRADED if request.GET.get("cut") == GRADED else ""
    graded = _graded(request, garment, plate) if cut else None
    pieces = _pieces(plate, cloth, graded)
    last = garment.lays.filter(cloth=cloth).first()
    initial = first_values(
        request.user,
        allowance=TypedLength(text="0 in", um=0) if plate and plate.allowance == "included" else ALLOWANCE,
        given=last.inputs["form"] if last else None,
    )
    form = LayForm(request.POST or None, pieces=pieces, user=request.user, initial=initial)
    if pieces and form.is_valid():
        lay = ask_for_lay(
            garment,
            cloth=cloth,
            graded=[piece.name for piece in pieces if graded and piece.name in graded],
            form=form.inputs(),
            orders=form.orders,
            boxes=[piece.name for piece in pieces if not piece.is_traced],
            by=request.user,
            at=timezone.now(),
        )
        return redirect(lay)
    shown = {
        "garment": garment,
        "plate": plate,
        "cloths": cloths,
        "cloth": cloth,
        "cut": cut,
        "graded": graded,
        "pieces": pieces,
        "form": form,
    }
    return render(request, "fitting/lay_add.html", shown)


def _pieces(plate: Plate | None, cloth: str, graded: Mapping[str, TracedShape] | None) -> list[PieceToLay]:
    try:
        return pieces_to_lay(plate, cloth, graded=graded) if plate else []
    except ScaleNotUnderstood:
        return []


def _graded(request: HttpRequest, garment: Garment, plate: Plate | None) -> Mapping[str, TracedShape]:
    """The pieces graded to the wearer, as far as they can be; the grading page says what is missing."""
    if plate is None:
        return {}
    try:
        return graded_garment(garment, traced_plate(plate), by=request.user, at=timezone.now()).shapes
    except ScaleNotUnderstood:
        return {}


def lay_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """How far it is, until it is ready: the browser asks again by itself, without a script."""
    lay = open_for_look(Lay.objects.for_detail_page(), request, pk)
    if lay.is_stopped:
        sweep_lay(lay)
        lay.refresh_from_db()
    shown = {"lay": lay, "garment": lay.garment, "widths": widths_laid(lay, request.user.system)}
    answer = render(request, "fitting/lay_detail.html", shown)
    if lay.is_unfinished:
        answer["Refresh"] = str(LOOK_AGAIN_SECONDS)
    return answer


@require_POST
def lay_stop(request: HttpRequest, pk: int) -> HttpResponse:
    lay = open_for_edit(Lay.objects.for_detail_page(), request, pk)
    stop_lay(lay)
    messages.success(request, "It looks no further: the best lay so far is kept.")
    return redirect(lay)


def lay_delete(request: HttpRequest, pk: int) -> HttpResponse:
    lay = open_for_edit(Lay.objects.for_detail_page(), request, pk)
    if request.method == "POST":
        lay.delete()
        messages.success(request, "The lay is deleted.")
        return redirect("garment-work", lay.garment_id)
    return render(request, "fitting/lay_delete.html", {"lay": lay, "garment": lay.garment})
