from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.plates.models.plate import Plate
from catalogue.references.models.question import Question
from catalogue.references.views import PLATES_SHOWN, ROWS_A_PAGE
from catalogue.workroom.guard import workroom_for_look


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
