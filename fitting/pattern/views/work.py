"""Pattern work of a garment: its list of sheets, each sheet, and what was kept of them.

Sheets are sent by POST even where nothing is kept: a body's measures have no place in an address.
"""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.workroom.guard import key_of, open_for_edit, open_for_look
from catalogue.workroom.reader.codec import from_json
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import keep_work
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.calculation.sums.table import GROUPS, PAGES
from fitting.pattern.forms.alteration import AlterationSheet
from fitting.pattern.forms.seams import SeamsSheet
from fitting.pattern.forms.sums import SumSheet
from fitting.pattern.loading.facts import known_of
from fitting.pattern.models import WorkNote

# The sums that ask for more than can be declared.
OWN_FORMS = {"alteration": AlterationSheet, "seams": SeamsSheet}


def garment_work(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    shown = {
        "garment": garment,
        "groups": GROUPS,
        "notes": garment.work_notes.select_related("made_by"),
        "lays": garment.lays.defer("inputs", "results"),
    }
    return render(request, "pattern/pattern_work.html", shown)


def work_sheet(request: HttpRequest, pk: int, kind: str) -> HttpResponse:
    """Boxes and answer on one page; `from` in the address fills them as a kept note had them."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    if kind not in PAGES:
        raise Http404("There is no such sheet of pattern work.")
    known = known_of(garment, by=request.user, at=timezone.now())
    given = _given(garment, kind, request.GET.get("from", ""))
    form = OWN_FORMS.get(kind, SumSheet)
    sheet = form(PAGES[kind], request.POST or None, known=known, user=request.user, given=given)
    if sheet.is_valid() and "keep" in request.POST:
        note = keep_work(
            garment,
            kind=kind,
            inputs=sheet.inputs(),
            worked=sheet.worked,
            by=request.user,
            at=timezone.now(),
        )
        messages.success(request, "Kept with the garment. It is printed in the dossier’s “Pattern work”.")
        return redirect(note)
    shown = {"garment": garment, "sheet": sheet, "worked": sheet.worked}
    return render(request, "pattern/work_sheet.html", shown)


def _given(garment: Garment, kind: str, key: str) -> dict[str, str] | None:
    note = garment.work_notes.filter(pk=key_of(key), kind=kind).first()
    return note.inputs if note else None


def work_note_detail(request: HttpRequest, pk: int) -> HttpResponse:
    note = open_for_look(WorkNote.objects.for_detail_page(), request, pk)
    shown = {"note": note, "garment": note.garment, "worked": from_json(SheetAnswer, note.results)}
    return render(request, "pattern/work_note_detail.html", shown)
