"""The pieces of a plate and the seams between them: begun from what is usual, typed, changed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.plates.actions import next_place, start_pieces, take_seams
from catalogue.plates.forms.plate import PieceForm
from catalogue.plates.forms.seam import SeamFormSet, SeamProposeForm
from catalogue.plates.loading import plate_agreements, plate_findings, proposed_seams
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.plates.views.plates import table_address
from catalogue.references.calculation import CUTTING_LISTS
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from catalogue.workroom.index.filing import refiled


@require_POST
def piece_start(request: HttpRequest, pk: int) -> HttpResponse:
    """Begin with the usual pieces of one kind of garment."""
    plate = open_for_edit(Plate, request, pk)
    usual = CUTTING_LISTS.get(request.POST.get("kind", ""))
    if usual is None:
        messages.error(request, "Choose a kind of garment from the list.")
        return redirect(plate)
    pieces = start_pieces(plate=plate, cutting_list=usual)
    messages.success(request, f"{len(pieces)} pieces to begin with. Change what the plate draws otherwise.")
    return redirect(table_address(plate, usual.lines))


def piece_add(request: HttpRequest, pk: int) -> HttpResponse:
    plate = open_for_edit(Plate, request, pk)
    piece = Piece(plate=plate, order=next_place(plate), cut=2 if plate.is_half else 1)
    form = PieceForm(request.POST or None, instance=piece)
    if form.is_valid():
        with refiled(plate.reference):
            messages.success(request, f"“{form.save()}” is on the plate.")
        return redirect("piece-add", plate.pk) if "another" in request.POST else redirect(plate)
    shown = {"plate": plate, "form": form, "cutting_lists": CUTTING_LISTS}
    return render(request, "plates/piece_add.html", shown)


def piece_change(request: HttpRequest, pk: int) -> HttpResponse:
    piece = open_for_edit(Piece, request, pk)
    form = PieceForm(request.POST or None, instance=piece)
    if form.is_valid():
        with refiled(piece.plate.reference):
            messages.success(request, f"“{form.save()}” is changed.")
        return redirect(piece.plate)
    shown = {"piece": piece, "form": form}
    return render(request, "plates/piece_change.html", shown)


def seam_list(request: HttpRequest, pk: int) -> HttpResponse:
    """Every seam of a plate in one table: to type in for those who write, to read for the others."""
    opened = open_for_edit if request.method == "POST" else open_for_look
    plate = opened(Plate.objects.for_detail_page(), request, pk)
    shown = {
        "plate": plate,
        "open_proposals": len(proposed_seams(plate)),
        "agreements": plate_agreements(plate, plate_findings(plate)),
    }
    if may_change(request, plate):
        formset = SeamFormSet(
            request.POST or None,
            instance=plate,
            queryset=plate.seams.all(),
            form_kwargs={"user": request.user, "plate": plate},
        )
        if formset.is_valid():
            formset.save()
            messages.success(request, "The seams are kept.")
            return redirect("seam-list", plate.pk)
        shown["formset"] = formset
    return render(request, "plates/seam_list.html", shown)


def seam_propose(request: HttpRequest, pk: int) -> HttpResponse:
    plate = open_for_edit(Plate.objects.for_detail_page(), request, pk)
    form = SeamProposeForm(request.POST or None, proposed=proposed_seams(plate))
    if form.is_valid():
        taken = take_seams(plate=plate, proposed=form.taken(), evidence=form.cleaned_data["evidence"])
        messages.success(request, f"{len(taken)} seam{'s' if len(taken) > 1 else ''} added.")
        return redirect("seam-list", plate.pk)
    return render(request, "plates/seam_propose.html", {"plate": plate, "form": form})
