from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.workroom.guard import workroom_for_look
from fitting.bridge.attention import calls_of, on_the_table, work_on_the_table
from fitting.dossier.models import Dossier
from fitting.fittings.models.session import Fitting

ROWS_A_SECTION = 6


def home(request: HttpRequest) -> HttpResponse:
    """What needs attention. What is reckoned from a body is shown to those only who may write."""
    if not request.member:
        return render(request, "fitting/home_nowhere.html")
    workroom = workroom_for_look(request)
    table = on_the_table(workroom, by=request.user, at=timezone.now())
    shown = {
        "outfits": work_on_the_table(table),
        "asked": Question.objects.of_workroom(workroom).unanswered().for_list_page()[:ROWS_A_SECTION],
        "questions": Plate.objects.of_workroom(workroom).with_open_questions()[:ROWS_A_SECTION],
        "has_references": ReferenceGarment.objects.of_workroom(workroom).exists(),
    }
    if request.member.may_write:
        shown["calls"] = calls_of(table)
        shown["fittings"] = Fitting.objects.open_in(workroom).for_list_page()[:ROWS_A_SECTION]
        shown["dossiers"] = Dossier.objects.of_workroom(workroom).for_detail_page()[:ROWS_A_SECTION]
    return render(request, "fitting/home.html", shown)
