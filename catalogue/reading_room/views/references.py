"""A garment whole, with all that is known of it; a copy of it; and every open question of a workroom."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.plates.loading import plate_findings
from catalogue.plates.models.plate import Plate
from catalogue.reading_room.actions import copy_reference
from catalogue.references.forms.reference import ReferenceCopyForm
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.tracing.loading.drawing import traced_drawings
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look, workroom_for_look
from catalogue.workroom.uses import uses_of_reference

ROWS_A_PAGE = 50
PLATES_SHOWN = 50


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
    return render(request, "reading_room/reference_detail.html", shown)


def reference_copy(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = ReferenceCopyForm(request.POST or None, initial={"name": f"{reference}, copy"[:160]})
    if form.is_valid():
        copy = copy_reference(reference=reference, **form.cleaned_data)
        messages.success(request, f"“{copy}” is in the catalogue. Change what differs.")
        return redirect("reference-change", copy.pk)
    return render(request, "reading_room/reference_copy.html", {"reference": reference, "form": form})


def question_list(request: HttpRequest) -> HttpResponse:
    """Open questions, or with `?answered` the answered; and plates of which something is not known."""
    workroom = workroom_for_look(request)
    is_answered = "answered" in request.GET
    rows = Question.objects.of_workroom(workroom).filter(answered_on__isnull=not is_answered).for_list_page()
    shown = {
        "page": Paginator(rows, ROWS_A_PAGE).get_page(request.GET.get("page")),
        "is_answered": is_answered,
        "plates": Plate.objects.of_workroom(workroom).with_open_questions()[:PLATES_SHOWN],
    }
    return render(request, "reading_room/question_list.html", shown)
