"""What is not known yet, who asked, and what was found out."""

from datetime import date

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.forms.question import AnswerForm, QuestionForm
from catalogue.models.garment import ReferenceGarment
from catalogue.models.plate import Plate
from catalogue.models.question import Question
from catalogue.workroom.actions import delete_for_a_while
from catalogue.workroom.guard import open_for_edit, workroom_for_look
from catalogue.workroom.views import tell_deleted

ROWS_A_PAGE = 50
PLATES_SHOWN = 50


def question_list(request: HttpRequest) -> HttpResponse:
    """The open ones, or with `?answered` the others; and the plates that hold something not known."""
    workroom = workroom_for_look(request)
    is_answered = "answered" in request.GET
    rows = Question.objects.of_workroom(workroom).filter(answered_on__isnull=not is_answered).for_list_page()
    shown = {
        "page": Paginator(rows, ROWS_A_PAGE).get_page(request.GET.get("page")),
        "is_answered": is_answered,
        "plates": Plate.objects.of_workroom(workroom).with_open_questions()[:PLATES_SHOWN],
    }
    return render(request, "catalogue/question_list.html", shown)


def question_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    first = {"asked_by": str(request.user), "asked_on": _today()}
    form = QuestionForm(request.POST or None, instance=Question(reference=reference), initial=first)
    if form.is_valid():
        messages.success(request, "The question is open.")
        return redirect(form.save())
    return render(request, "catalogue/question_add.html", {"reference": reference, "form": form})


def question_change(request: HttpRequest, pk: int) -> HttpResponse:
    question = open_for_edit(Question, request, pk)
    form = QuestionForm(request.POST or None, instance=question)
    if form.is_valid():
        messages.success(request, "The question is changed.")
        return redirect(form.save())
    return render(request, "catalogue/question_change.html", {"question": question, "form": form})


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
    return render(request, "catalogue/question_answer.html", {"question": question, "form": form})


def question_delete(request: HttpRequest, pk: int) -> HttpResponse:
    question = open_for_edit(Question, request, pk)
    if request.method == "POST":
        tell_deleted(request, delete_for_a_while(row=question, by=request.user, at=timezone.now()))
        return redirect(question.reference)
    return render(request, "catalogue/question_delete.html", {"question": question})


def _today() -> date:
    return timezone.localdate()
