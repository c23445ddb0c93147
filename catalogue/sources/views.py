"""Sources: their list, each of them, all as one bibliography, to other programs and from them."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify

from catalogue.sources.actions import take_sources
from catalogue.sources.exchange.bibtex.writing import write_bibtex
from catalogue.sources.exchange.csl import write_csl
from catalogue.sources.filters import SourceFilter
from catalogue.sources.forms import SourceForm, SourceImportForm
from catalogue.sources.loading import sources_like
from catalogue.sources.models import Source
from catalogue.sources.showing import bibliography, cite
from catalogue.workroom.guard import (
    key_of,
    may_change,
    open_for_edit,
    open_for_look,
    workroom_for_edit,
    workroom_for_look,
)
from catalogue.workroom.index.filing import source_refiled
from catalogue.workroom.uses import uses_of_source

ROWS_A_PAGE = 50
# How sources go out: what writes them, the ending of the file, and its kind.
FORMS = {
    "csl": (write_csl, "json", "application/vnd.citationstyles.csl+json"),
    "bibtex": (write_bibtex, "bib", "application/x-bibtex; charset=utf-8"),
}


def source_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    found = SourceFilter(request.GET, Source.objects.of_workroom(workroom).for_list_page())
    page = Paginator(found.qs, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "sources/source_list.html", {"filter": found, "page": page})


def source_detail(request: HttpRequest, pk: int) -> HttpResponse:
    source = open_for_look(Source.objects.for_detail_page(), request, pk)
    shown = {
        "source": source,
        "entry": cite(source),
        "alike": list(sources_like(source, Source.objects.of_workroom(source.workroom))),
        "uses": uses_of_source(source, request.user),
        "may_change": may_change(request, source),
    }
    return render(request, "sources/source_detail.html", shown)


def source_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = SourceForm(request.POST or None, instance=Source(workroom=workroom))
    if form.is_valid():
        with source_refiled(form.instance):
            source = form.save()
        messages.success(request, f"“{source}” is among your sources.")
        return redirect(source)
    return render(request, "sources/source_add.html", {"form": form})


def source_change(request: HttpRequest, pk: int) -> HttpResponse:
    source = open_for_edit(Source, request, pk)
    form = SourceForm(request.POST or None, instance=source)
    if form.is_valid():
        with source_refiled(source):
            messages.success(request, f"“{form.save()}” is changed.")
        return redirect(source)
    return render(request, "sources/source_change.html", {"source": source, "form": form})


def source_bibliography(request: HttpRequest) -> HttpResponse:
    """Every source of the workroom, or those that the list was narrowed to, as they are cited."""
    found = _found(request)
    shown = {"entries": bibliography(found), "query": request.GET.urlencode()}
    return render(request, "sources/source_bibliography.html", shown)


def source_export(request: HttpRequest, form: str) -> HttpResponse:
    """`?source=7` for one; else as narrowed on the list."""
    found = _found(request)
    if form not in FORMS:
        raise Http404("Sources are written as CSL-JSON and BibTeX.")
    if one := request.GET.get("source", ""):
        found = found.filter(pk=key_of(one))
    write, ending, kind = FORMS[form]
    name = slugify(found[0].title)[:40] if one and found else "sources"
    answer = HttpResponse(write(found), content_type=kind)
    answer["Content-Disposition"] = f'attachment; filename="{name}.{ending}"'
    return answer


def source_import(request: HttpRequest) -> HttpResponse:
    """Shown first what would be added; added when the same text is sent with the button that says so."""
    workroom = workroom_for_edit(request)
    form = SourceImportForm(request.POST or None, request.FILES or None)
    if not form.is_valid():
        return render(request, "sources/source_import.html", {"form": form})
    is_sure = "take" in request.POST
    taken = take_sources(workroom=workroom, cited=form.cited, only_try=not is_sure)
    if is_sure:
        messages.success(request, f"{len(taken.new)} sources added, {len(taken.there)} were there already.")
        return redirect("source-list")
    shown = {
        "taken": taken,
        "text": form.cleaned_data["text"],
        "new": [cite(source) for source in taken.new],
        "there": [cite(source) for source in taken.there],
        "alike": [(cite(source), other, why) for source, other, why in taken.alike],
    }
    return render(request, "sources/source_import_tried.html", shown)


def _found(request: HttpRequest) -> QuerySet[Source]:
    workroom = workroom_for_look(request)
    return SourceFilter(request.GET, Source.objects.of_workroom(workroom).order_by("title", "pk")).qs
