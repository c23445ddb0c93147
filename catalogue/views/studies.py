"""An appointment with an object: a sheet to take along, and typing it up afterwards."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.actions.studies import keep_study
from catalogue.forms.study import StudyForm, StudyMeasureFormSet, lines_of
from catalogue.models.garment import ReferenceGarment
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look


def study_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_look(ReferenceGarment.objects.select_related("workroom"), request, pk)
    shown = {
        "reference": reference,
        "headings": StudyForm().headings(),
        "lines": lines_of(reference),
        "views": reference.photos.model.View.labels,
        "may_change": may_change(request, reference),
    }
    return render(request, "catalogue/study_sheet.html", shown)


def study_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = StudyForm(request.POST or None)
    formset = StudyMeasureFormSet(
        request.POST or None, form_kwargs={"user": request.user, "lines": lines_of(reference)}
    )
    if request.method == "POST" and all([form.is_valid(), formset.is_valid()]):
        keep_study(
            reference=reference,
            seen_on=form.cleaned_data["seen_on"],
            seen_by=form.cleaned_data["seen_by"],
            notes=form.notes(),
            measures=formset.taken(),
        )
        messages.success(request, "The study is kept as a source of this garment, with its measures.")
        return redirect(reference)
    return render(
        request, "catalogue/study_add.html", {"reference": reference, "form": form, "formset": formset}
    )
