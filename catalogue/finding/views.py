from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from catalogue.finding.forms import SavedFilterForm
from catalogue.workroom.guard import workroom_for_edit


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
