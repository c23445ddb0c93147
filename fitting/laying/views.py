"""The lay: what to lay on which cloth, how far it is, and what to buy."""

from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from catalogue.workroom.views.work import looked_at_again, work_for
from fitting.laying.actions import ask_for_lay, lines_for, write_what_to_buy
from fitting.laying.forms.buy import LayBuyForm
from fitting.laying.forms.lay import LayForm, first_values
from fitting.laying.loading.laid_pieces import LaidPieces, laid_pieces
from fitting.laying.loading.orders import lay_request
from fitting.laying.models import Lay
from fitting.laying.showing.finished_lay import how_laid, widths_laid
from fitting.outfits.models.garment import Garment

ALLOWANCE = TypedLength(text="1/2 in", um=12_700)  # common practice, no source


def lay_add(request: HttpRequest, pk: int) -> HttpResponse:
    """The pieces of one cloth at a time; `cloth` in the address says which."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id) if garment.plate_id else None
    laid = laid_pieces(
        garment,
        plate,
        cloth=request.GET.get("cloth", ""),
        cut=request.GET.get("cut", ""),
        by=request.user,
        at=timezone.now(),
    )
    form = _form(request, garment, plate, laid)
    if laid.pieces and form.is_valid():
        asked = replace(
            form.request,
            form=form.inputs(),
            graded=laid.graded,
            cannot_match=laid.cannot_match,
            version=laid.version,
            of=laid.of,
            with_own=laid.with_own,
        )
        at = timezone.now()
        return redirect(ask_for_lay(garment, cloth=laid.cloth, request=asked, by=request.user, at=at))
    shown = {
        "garment": garment,
        "plate": plate,
        "laid": laid,
        "cloths": Piece.ClothRole.values if laid.pieces else [],
        "form": form,
    }
    return render(request, "laying/lay_add.html", shown)


def _form(request: HttpRequest, garment: Garment, plate: Plate | None, laid: LaidPieces) -> LayForm:
    last = garment.lays.filter(cloth=laid.cloth).first()
    is_included = not laid.version and plate is not None and plate.allowance == "included"
    initial = first_values(
        request.user,
        allowance=TypedLength(text="0 in", um=0) if is_included else ALLOWANCE,
        given=lay_request(last.inputs).form if last else None,
        own_width=next(
            (one.width_text for one in lines_for(garment, laid.cloth) if one.width_um and one.garment_id), ""
        ),
    )
    return LayForm(request.POST or None, pieces=laid.pieces, user=request.user, initial=initial)


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
