from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.bibliography import cite
from catalogue.filters.source import SourceFilter
from catalogue.forms.source import SourceForm
from catalogue.models.source import Source
from catalogue.workroom.actions import delete_for_a_while
from catalogue.workroom.guard import (
    may_change,
    open_for_edit,
    open_for_look,
    workroom_for_edit,
    workroom_for_look,
)
from catalogue.workroom.index.filing import source_refiled
from catalogue.workroom.uses import uses_of_source
from catalogue.workroom.views import tell_deleted

ROWS_A_PAGE = 50


def source_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    found = SourceFilter(request.GET, Source.objects.of_workroom(workroom).for_list_page())
    page = Paginator(found.qs, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "catalogue/source_list.html", {"filter": found, "page": page})


def source_detail(request: HttpRequest, pk: int) -> HttpResponse:
    source = open_for_look(Source.objects.for_detail_page(), request, pk)
    shown = {
        "source": source,
        "entry": cite(source),
        "uses": uses_of_source(source, request.user),
        "may_change": may_change(request, source),
    }
    return render(request, "catalogue/source_detail.html", shown)


def source_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = SourceForm(request.POST or None, instance=Source(workroom=workroom))
    if form.is_valid():
        with source_refiled(form.instance):
            source = form.save()
        messages.success(request, f"“{source}” is among your sources.")
        return redirect(source)
    return render(request, "catalogue/source_add.html", {"form": form})


def source_change(request: HttpRequest, pk: int) -> HttpResponse:
    source = open_for_edit(Source, request, pk)
    form = SourceForm(request.POST or None, instance=source)
    if form.is_valid():
        with source_refiled(source):
            messages.success(request, f"“{form.save()}” is changed.")
        return redirect(source)
    return render(request, "catalogue/source_change.html", {"source": source, "form": form})


def source_delete(request: HttpRequest, pk: int) -> HttpResponse:
    """A source that is cited stays: the page lists the garments whose facts rest on it."""
    source = open_for_edit(Source.objects.for_detail_page(), request, pk)
    if request.method == "POST" and not source.citations.all():
        tell_deleted(request, delete_for_a_while(row=source, by=request.user, at=timezone.now()))
        return redirect("source-list")
    return render(request, "catalogue/source_delete.html", {"source": source})
