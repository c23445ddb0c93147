from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.actions.plates import take_seams
from catalogue.bridge import plate_agreements, plate_findings, proposed_seams
from catalogue.forms.seam import SeamFormSet, SeamProposeForm
from catalogue.models.plate import Plate
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look


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
    return render(request, "catalogue/seam_list.html", shown)


def seam_propose(request: HttpRequest, pk: int) -> HttpResponse:
    plate = open_for_edit(Plate.objects.for_detail_page(), request, pk)
    form = SeamProposeForm(request.POST or None, proposed=proposed_seams(plate))
    if form.is_valid():
        taken = take_seams(plate=plate, proposed=form.taken(), evidence=form.cleaned_data["evidence"])
        messages.success(request, f"{len(taken)} seam{'s' if len(taken) > 1 else ''} added.")
        return redirect("seam-list", plate.pk)
    return render(request, "catalogue/seam_propose.html", {"plate": plate, "form": form})
