"""The lay: what to lay on which cloth, how far it is, and what to buy."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import cloths_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from catalogue.workroom.views.work import looked_at_again, work_for
from fitting.comparing.loading.draft import draft_measure_mm
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.laying.actions import ask_for_lay, lines_for, write_what_to_buy
from fitting.laying.forms.buy import LayBuyForm
from fitting.laying.forms.lay import LayForm, first_values
from fitting.laying.loading.matching import cannot_match
from fitting.laying.loading.orders import lay_request
from fitting.laying.loading.pieces import PieceToLay, pieces_to_lay
from fitting.laying.models import Lay
from fitting.laying.showing.finished_lay import how_laid, widths_laid
from fitting.outfits.models.garment import Garment
from fitting.pattern.loading.grading import GradedGarment, graded_garment
from fitting.pattern.loading.traced_plate import traced_plate

GRADED = "graded"
ALLOWANCE = TypedLength(text="1/2 in", um=12_700)  # common practice, no source


def lay_add(request: HttpRequest, pk: int) -> HttpResponse:
    """The pieces of one cloth at a time; `cloth` in the address says which."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    plate = garment.plate_id and Plate.objects.for_detail_page().get(pk=garment.plate_id)
    on_plate = cloths_of(plate) if plate else []
    cloth = request.GET.get("cloth", "")
    cloth = cloth if cloth in Piece.ClothRole.values else next(iter(on_plate), Piece.ClothRole.OUTER)
    # A lining is cut by the pieces of the outer cloth, where the plate draws none for it.
    drawn_as = cloth if cloth in on_plate else next(iter(on_plate), "")
    cut = GRADED if request.GET.get("cut") == GRADED else ""
    graded = _graded(request, garment, plate) if cut else None
    body_mm = _draft_mm(request, garment, plate)
    pieces = _pieces(plate, drawn_as, graded, body_mm)
    form = _form(request, garment, plate, cloth, pieces)
    if pieces and form.is_valid():
        asked = replace(
            form.request,
            form=form.inputs(),
            graded=tuple(piece.name for piece in pieces if graded and piece.name in graded.shapes),
            cannot_match=tuple(_cannot_match(plate, pieces)),
        )
        return redirect(ask_for_lay(garment, cloth=cloth, request=asked, by=request.user, at=timezone.now()))
    shown = {
        "garment": garment,
        "plate": plate,
        "cloths": Piece.ClothRole.values if pieces else [],
        "cloth": cloth,
        "drawn_as": drawn_as,
        "cut": cut,
        "graded": graded,
        "is_drawn_out": body_mm is not None,
        "pieces": pieces,
        "form": form,
    }
    return render(request, "laying/lay_add.html", shown)


def _form(
    request: HttpRequest, garment: Garment, plate: Plate | None, cloth: str, pieces: Sequence[PieceToLay]
) -> LayForm:
    last = garment.lays.filter(cloth=cloth).first()
    initial = first_values(
        request.user,
        allowance=TypedLength(text="0 in", um=0) if plate and plate.allowance == "included" else ALLOWANCE,
        given=lay_request(last.inputs).form if last else None,
        own_width=next(
            (one.width_text for one in lines_for(garment, cloth) if one.width_um and one.garment_id), ""
        ),
    )
    return LayForm(request.POST or None, pieces=pieces, user=request.user, initial=initial)


def _cannot_match(plate: Plate | None, pieces: Sequence[PieceToLay]) -> Iterator[str]:
    return cannot_match((piece.shape for piece in pieces if piece.shape), plate.seams.all() if plate else ())


def _draft_mm(request: HttpRequest, garment: Garment, plate: Plate | None) -> float | None:
    """The wearer's measure that a proportional draft is drawn out for; None of another plate."""
    if not plate or not plate.is_draft:
        return None
    standing = garment_as_it_stands(garment, by=request.user, at=timezone.now())
    return draft_measure_mm(plate, standing.used)


def _pieces(
    plate: Plate | None, cloth: str, graded: GradedGarment | None, body_mm: float | None
) -> list[PieceToLay]:
    try:
        return pieces_to_lay(plate, cloth, graded=graded, body_mm=body_mm) if plate else []
    except ScaleNotUnderstood:
        return []


def _graded(request: HttpRequest, garment: Garment, plate: Plate | None) -> GradedGarment | None:
    """The pieces graded to the wearer, as far as they can be; the grading page says what is missing."""
    if plate is None:
        return None
    try:
        graded = graded_garment(garment, traced_plate(plate), by=request.user, at=timezone.now())
    except ScaleNotUnderstood:
        return None
    return graded if graded.shapes else None


def lay_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """How far it is, until it is ready: the browser asks again by itself, without a script."""
    lay = open_for_look(Lay.objects.for_detail_page(), request, pk)
    return _shown(request, lay, _buy_form(request, lay))


def _shown(request: HttpRequest, lay: Lay, form: LayBuyForm) -> HttpResponse:
    work = work_for(lay)
    shown = {
        "lay": lay,
        "work": work,
        "may_change": may_change(request, lay),
        "garment": lay.garment,
        "widths": form.widths,
        "how_laid": how_laid(lay),
        "form": form,
    }
    return looked_at_again(render(request, "laying/lay_detail.html", shown), work)


def _buy_form(request: HttpRequest, lay: Lay) -> LayBuyForm:
    return LayBuyForm(
        request.POST or None,
        widths=widths_laid(lay, request.user.system),
        materials=lines_for(lay.garment, lay.cloth),
        garment_id=lay.garment_id,
        user=request.user,
    )


@require_POST
def lay_buy(request: HttpRequest, pk: int) -> HttpResponse:
    """Writes what one width takes into the materials, and says what stood there before."""
    lay = open_for_edit(Lay.objects.for_detail_page(), request, pk)
    form = _buy_form(request, lay)
    if not form.is_valid():
        return _shown(request, lay, form)
    material, before = write_what_to_buy(lay, width=form.width_laid, into=form.into)
    was = f"before, it was {before}" if before else "nothing stood there before"
    messages.success(request, f"“{material}” now needs {material.needed_text}; {was}.")
    return redirect("material-list", material.outfit_id)
