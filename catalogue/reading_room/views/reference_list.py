"""The list of reference garments: searched, narrowed, counted, and shown as cards, a table or a time line."""

from dataclasses import dataclass

from django.core.paginator import Page, Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.finding.filters.chips import chips, count_choices, kept_query, query_without
from catalogue.finding.filters.reference import ReferenceFilter
from catalogue.reading_room.calculation.time_line import Bar, Dating, lay_on_line
from catalogue.reading_room.showing.time_line import draw_key, draw_time_line
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.calculation.dates import ends_of
from catalogue.sources.models import Source
from catalogue.workroom.guard import workroom_for_look
from catalogue.workroom.index.engine import sources_with
from catalogue.workroom.index.snippet import Run, snippet

ROWS_A_PAGE = 50
VIEWS = ("cards", "table", "time")
SOURCES_SHOWN = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class ListEntry:
    """A garment found, with the words marked in its name and in what is written of it."""

    reference: ReferenceGarment
    name: list[Run]
    snippet: list[Run]


def reference_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    if empty := [name for name, value in request.GET.items() if not value]:
        # A form sends its empty boxes too; an address to keep or to send has only what was chosen.
        left = query_without(request.GET, *empty)
        return redirect(f"{request.path}?{left}" if left else request.path)
    found = ReferenceFilter(request.GET, workroom=workroom, user=request.user)
    view = request.GET.get("as") if request.GET.get("as") in VIEWS else "cards"
    page = _page(request, found, by_age=view == "time")
    count_choices(found)
    shown = {
        "filter": found,
        "page": page,
        "view": view,
        "chips": chips(found, request.GET),
        "kept_query": kept_query(found, request.GET),
        "saved_filters": list(workroom.saved_filters.all()),
        "chosen": request.GET.getlist("garment"),
        "sources": _sources(found) if page.number == 1 else [],
    }
    if view == "time":
        shown |= _time_line(page)
    return render(request, "reading_room/reference_list.html", shown)


def _page(request: HttpRequest, found: ReferenceFilter, *, by_age: bool) -> Page:
    """One page of `ListEntry`. The keys come first: only the page's own rows are read in full."""
    page = Paginator(found.keys(by_age=by_age), ROWS_A_PAGE).get_page(request.GET.get("page"))
    keys = list(page.object_list)
    rows = ReferenceGarment.objects.for_list_page().in_bulk(keys)
    page.object_list = [_listed(rows[key], found) for key in keys if key in rows]
    return page


def _listed(reference: ReferenceGarment, found: ReferenceFilter) -> ListEntry:
    whole = [Run(reference.name, False)]
    name = snippet(reference.name, found.words, longest=len(reference.name)) if found.words else whole
    return ListEntry(
        reference=reference,
        name=name or whole,
        snippet=snippet(reference.card_text or "", found.words) if found.words else [],
    )


def _sources(found: ReferenceFilter) -> list[Source]:
    """Sources that hold the words, whether a garment cites them or not."""
    if not found.words:
        return []
    mine = Source.objects.of_workroom(found.workroom)
    return list(mine.filter(pk__in=sources_with(found.words, mine.db))[:SOURCES_SHOWN])


def _time_line(page: Page) -> dict[str, object]:
    """The garments of the page that are dated, each with its bar."""
    dated = [listed for listed in page.object_list if listed.reference.date_edtf]
    line = lay_on_line(
        [
            Dating(
                earliest=listed.reference.date_earliest,
                latest=listed.reference.date_latest,
                ends=ends_of(listed.reference.date_edtf),
            )
            for listed in dated
        ]
    )
    rows: list[tuple[ListEntry, Bar]] = list(zip(dated, line.bars, strict=True))
    return {
        "time_line": draw_time_line(line, [(listed.reference, bar) for listed, bar in rows]),
        "time_key": draw_key(),
        "bars": rows,
        "undated": len(page.object_list) - len(dated),
    }
