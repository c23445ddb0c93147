from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.workroom.guard import open_for_edit, workroom_for_edit, workroom_for_look
from fitting.actions.stand import save_stand
from fitting.forms.stand import StandForm
from fitting.models.stand import Stand

ROWS_A_PAGE = 50


def stand_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    stands = Stand.objects.of_workroom(workroom).prefetch_related("measures")
    page = Paginator(stands, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "fitting/stand_list.html", {"page": page})


def stand_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = StandForm(request.POST or None, instance=Stand(workroom=workroom), user=request.user)
    if form.is_valid():
        stand = save_stand(form.instance, measures=form.measures())
        messages.success(request, f"“{stand}” is among your stands.")
        return redirect("stand-list")
    return render(request, "fitting/stand_add.html", {"form": form})


def stand_change(request: HttpRequest, pk: int) -> HttpResponse:
    stand = open_for_edit(Stand, request, pk)
    form = StandForm(request.POST or None, instance=stand, user=request.user)
    if form.is_valid():
        save_stand(stand, measures=form.measures())
        messages.success(request, f"“{stand}” is changed.")
        return redirect("stand-list")
    return render(request, "fitting/stand_change.html", {"stand": stand, "form": form})


def stand_delete(request: HttpRequest, pk: int) -> HttpResponse:
    stand = open_for_edit(Stand, request, pk)
    if request.method == "POST":
        stand.delete()
        messages.success(request, f"“{stand}” is deleted.")
        return redirect("stand-list")
    return render(request, "fitting/stand_delete.html", {"stand": stand, "garments": stand.garments.all()})
