"""Sources to other programs and from them, and all of them as one bibliography."""

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify

from catalogue.actions.sources import take_sources
from catalogue.bibliography import bibliography, cite
from catalogue.exchange.bibtex import write_bibtex
from catalogue.exchange.csl import write_csl
from catalogue.filters.source import SourceFilter
from catalogue.forms.source_import import SourceImportForm
from catalogue.models.source import Source
from catalogue.workroom.guard import workroom_for_edit, workroom_for_look

FORMS = {
    "csl": (write_csl, "json", "application/vnd.citationstyles.csl+json"),
    "bibtex": (write_bibtex, "bib", "application/x-bibtex; charset=utf-8"),
}


def source_bibliography(request: HttpRequest) -> HttpResponse:
    """Every source of the workroom, or those that the list was narrowed to, as they are cited."""
    found = _found(request)
    shown = {"entries": bibliography(found), "query": request.GET.urlencode()}
    return render(request, "catalogue/source_bibliography.html", shown)


def source_export(request: HttpRequest, form: str) -> HttpResponse:
    """`?source=7` for one; else as narrowed on the list."""
    found = _found(request)
    if form not in FORMS:
        raise Http404("Sources are written as CSL-JSON and BibTeX.")
    if one := request.GET.get("source", ""):
        found = found.filter(pk=int(one) if one.isdecimal() and len(one) < 19 else 0)
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
        return render(request, "catalogue/source_import.html", {"form": form})
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
    }
    return render(request, "catalogue/source_import_tried.html", shown)


def _found(request: HttpRequest) -> QuerySet[Source]:
    workroom = workroom_for_look(request)
    return SourceFilter(request.GET, Source.objects.of_workroom(workroom).order_by("title", "pk")).qs
