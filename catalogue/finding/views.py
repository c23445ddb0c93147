from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.finding.forms import SavedFilterForm
from catalogue.finding.models import SavedFilter
from catalogue.workroom.actions.deletion import delete_for_a_while
from catalogue.workroom.guard import open_for_edit, workroom_for_edit
from catalogue.workroom.showing import what_goes_with
from catalogue.workroom.views.deletion import tell_deleted


@require_POST
def filter_save(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = SavedFilterForm(request.POST, workroom=workroom)
    if not form.is_valid():
        for faults in form.errors.values():
            messages.error(request, " ".join(faults))
        return redirect("reference-list")
    saved = form.save()
    messages.success(request, f"The filters are kept as “{saved}”.")
    return redirect(saved)


def filter_delete(request: HttpRequest, pk: int) -> HttpResponse:
    saved = open_for_edit(SavedFilter, request, pk)
    if request.method == "POST":
        tell_deleted(request, delete_for_a_while(row=saved, by=request.user))
        return redirect("reference-list")
    return render(request, "finding/filter_delete.html", {"goes": what_goes_with(saved), "saved": saved})
