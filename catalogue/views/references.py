from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.actions.copy import copy_reference
from catalogue.actions.references import keep_reference
from catalogue.bridge import plate_findings
from catalogue.drawn_outlines.drawing import traced_drawings
from catalogue.forms.reference import (
    CitationFormSet,
    PublishedMeasureFormSet,
    ReferenceCopyForm,
    ReferenceForm,
)
from catalogue.models.garment import ReferenceGarment
from catalogue.models.relation import Relation
from catalogue.workroom.actions import delete_for_a_while
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look, workroom_for_edit
from catalogue.workroom.index.filing import refiled
from catalogue.workroom.showing import what_goes_with
from catalogue.workroom.uses import uses_of_reference
from catalogue.workroom.views import tell_deleted


def reference_detail(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_look(ReferenceGarment.objects.for_detail_page(), request, pk)
    shown = {
        "reference": reference,
        "may_change": may_change(request, reference),
        "plates": [(plate, plate_findings(plate)) for plate in reference.plates.all()],
        "drawings": traced_drawings(reference.plates.all()),
        "uses": uses_of_reference(reference, request.user),
        "questions": reference.questions.for_list_page(),
        "relations": [(one, *one.seen_from(reference)) for one in Relation.objects.of(reference)],
    }
    return render(request, "catalogue/reference_detail.html", shown)


def reference_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = ReferenceForm(request.POST or None, instance=ReferenceGarment(workroom=workroom))
    if form.is_valid():
        reference = keep_reference(reference=form.instance, tags=form.cleaned_data["tags"])
        messages.success(request, f"“{reference}” is in the catalogue. Next: a plate of it, or photographs.")
        return redirect(reference)
    return render(request, "catalogue/reference_add.html", {"form": form})


def reference_change(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = ReferenceForm(request.POST or None, instance=reference)
    if form.is_valid():
        keep_reference(reference=reference, tags=form.cleaned_data["tags"])
        messages.success(request, f"“{reference}” is changed.")
        return redirect(reference)
    return render(request, "catalogue/reference_change.html", {"reference": reference, "form": form})


def reference_citations(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    formset = CitationFormSet(
        request.POST or None,
        instance=reference,
        form_kwargs={"user": request.user, "workroom": reference.workroom},
    )
    if formset.is_valid():
        with refiled(reference):
            formset.save()
        messages.success(request, "The sources are kept.")
        return redirect(reference)
    return render(request, "catalogue/reference_citations.html", {"reference": reference, "formset": formset})


def reference_measures(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    formset = PublishedMeasureFormSet(
        request.POST or None,
        instance=reference,
        form_kwargs={"user": request.user, "workroom": reference.workroom},
    )
    if formset.is_valid():
        formset.save()
        messages.success(request, "The published measures are kept.")
        return redirect(reference)
    return render(request, "catalogue/reference_measures.html", {"reference": reference, "formset": formset})


def reference_copy(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = ReferenceCopyForm(request.POST or None, initial={"name": f"{reference}, copy"[:160]})
    if form.is_valid():
        copy = copy_reference(reference=reference, **form.cleaned_data)
        messages.success(request, f"“{copy}” is in the catalogue. Change what differs.")
        return redirect("reference-change", copy.pk)
    return render(request, "catalogue/reference_copy.html", {"reference": reference, "form": form})


def reference_delete(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    if request.method == "POST":
        tell_deleted(request, delete_for_a_while(row=reference, by=request.user, at=timezone.now()))
        return redirect("reference-list")
    shown = {
        "reference": reference,
        "goes": what_goes_with(reference),
        "uses": uses_of_reference(reference, request.user),
    }
    return render(request, "catalogue/reference_delete.html", shown)
