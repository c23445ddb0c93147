"""What a maker enters about a garment studied: facts, sources, measures, questions, relations, an own study.

Its page, on which all of it is read, is in the reading room.
"""

from datetime import date

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.references.actions import keep_reference, keep_study
from catalogue.references.forms.reference import (
    AnswerForm,
    CitationFormSet,
    PublishedMeasureFormSet,
    QuestionForm,
    ReferenceForm,
)
from catalogue.references.forms.relation import RelationFindForm, RelationForm
from catalogue.references.forms.study import StudyForm, StudyMeasureFormSet, lines_of
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look, workroom_for_edit
from catalogue.workroom.index.filing import refiled


def reference_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = ReferenceForm(request.POST or None, instance=ReferenceGarment(workroom=workroom))
    if form.is_valid():
        reference = keep_reference(reference=form.instance, tags=form.cleaned_data["tags"])
        messages.success(request, f"“{reference}” is in the catalogue. Next: a plate of it, or photographs.")
        return redirect(reference)
    return render(request, "references/reference_add.html", {"form": form})


def reference_change(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = ReferenceForm(request.POST or None, instance=reference)
    if form.is_valid():
        keep_reference(reference=reference, tags=form.cleaned_data["tags"])
        messages.success(request, f"“{reference}” is changed.")
        return redirect(reference)
    return render(request, "references/reference_change.html", {"reference": reference, "form": form})


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
    return render(
        request, "references/reference_citations.html", {"reference": reference, "formset": formset}
    )


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
    return render(request, "references/reference_measures.html", {"reference": reference, "formset": formset})


def question_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    first = {"asked_by": str(request.user), "asked_on": _today()}
    form = QuestionForm(request.POST or None, instance=Question(reference=reference), initial=first)
    if form.is_valid():
        messages.success(request, "The question is open.")
        return redirect(form.save())
    return render(request, "references/question_add.html", {"reference": reference, "form": form})


def question_change(request: HttpRequest, pk: int) -> HttpResponse:
    question = open_for_edit(Question, request, pk)
    form = QuestionForm(request.POST or None, instance=question)
    if form.is_valid():
        messages.success(request, "The question is changed.")
        return redirect(form.save())
    return render(request, "references/question_change.html", {"question": question, "form": form})


def question_answer(request: HttpRequest, pk: int) -> HttpResponse:
    question = open_for_edit(Question, request, pk)
    first = {"answered_by": str(request.user), "answered_on": _today()} if question.is_open else {}
    form = AnswerForm(
        request.POST or None, instance=question, initial=first, workroom=question.its_workroom()
    )
    if form.is_valid():
        question = form.save()
        messages.success(request, "The question is open again." if question.is_open else "It is answered.")
        return redirect(question)
    return render(request, "references/question_answer.html", {"question": question, "form": form})


def _today() -> date:
    return timezone.localdate()


def relation_add(request: HttpRequest, pk: int) -> HttpResponse:
    """`?text=stays` narrows the garments that are offered."""
    reference = open_for_edit(ReferenceGarment, request, pk)
    find = RelationFindForm(request.GET)
    text = find.cleaned_data["text"] if find.is_valid() else ""
    form = RelationForm(request.POST or None, reference=reference, text=text)
    if form.is_valid():
        form.relation.save()
        messages.success(request, "Both garments show it now.")
        return redirect(reference)
    return render(
        request, "references/relation_add.html", {"reference": reference, "find": find, "form": form}
    )


def study_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_look(ReferenceGarment.objects.select_related("workroom"), request, pk)
    shown = {
        "reference": reference,
        "headings": StudyForm().headings(),
        "lines": lines_of(reference),
        "views": reference.photos.model.View.labels,
        "may_change": may_change(request, reference),
    }
    return render(request, "references/study_sheet.html", shown)


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
        request, "references/study_add.html", {"reference": reference, "form": form, "formset": formset}
    )
