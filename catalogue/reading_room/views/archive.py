"""All that a workroom holds out of it and into one. Keepers only: an archive holds everything at once."""

import io

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_POST

from catalogue.photographs.views import NOT_KEPT
from catalogue.reading_room.forms import ArchiveForm, TakeOutForm
from catalogue.workroom.archive.actions import agree, ask_for_export, ask_for_import
from catalogue.workroom.archive.models import ArchiveExport, ArchiveImport
from catalogue.workroom.archive.packing import MAY_CARRY
from catalogue.workroom.files import file_answer
from catalogue.workroom.guard import open_for_keeping, workroom_for_keeping
from catalogue.workroom.kinds import KINDS, LISTS
from catalogue.workroom.models import Workroom
from catalogue.workroom.views.work import looked_at_again, work_for

FAULTS_SHOWN, LEFT_OUT_SHOWN = 200, 20


def archive_detail(request: HttpRequest) -> HttpResponse:
    return _answer(request, workroom_for_keeping(request), ArchiveForm())


@require_POST
def archive_export_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_keeping(request)
    form = TakeOutForm(request.POST)
    personal = form.is_valid() and form.cleaned_data["personal"]
    return redirect(ask_for_export(workroom, personal=personal, by=request.user, at=timezone.now()))


def archive_export_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """How far it is, until it is ready: the browser asks again by itself, without a script."""
    export = _kept(request, ArchiveExport, pk)
    shown = {
        "export": export,
        "work": (work := work_for(export)),
        "may_carry": MAY_CARRY,
        "left_out": export.left_out[:LEFT_OUT_SHOWN],
    }
    return looked_at_again(render(request, "reading_room/archive_export_detail.html", shown), work)


def archive_export_file(request: HttpRequest, pk: int) -> FileResponse:
    export = _kept(request, ArchiveExport, pk)
    if not export.is_ready:
        raise Http404("This archive is not ready.")
    return file_answer(
        export.file,
        missing="The archive’s file is missing from the data folder. Take it out again.",
        cache=NOT_KEPT,
        as_attachment=True,
        content_type="application/zip",
        filename=f"{_name(export.workroom)}.zip",
    )


def archive_csv(request: HttpRequest, table: str) -> HttpResponse:
    workroom = workroom_for_keeping(request)
    sheets = [kind.spreadsheet for kind in KINDS.values() if kind.spreadsheet]
    sheet = next((one for one in sheets if one.name == table), None)
    if sheet is None:
        raise Http404("There is no such table.")
    text = io.StringIO(newline="")
    sheet.write(workroom, text)
    answer = HttpResponse(text.getvalue(), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{_name(workroom)}-{table}.csv"'
    return answer


@require_POST
def archive_import_add(request: HttpRequest) -> HttpResponse:
    """Have an archive that was sent looked at. Nothing of it is written yet."""
    workroom = workroom_for_keeping(request)
    form = ArchiveForm(request.POST, request.FILES)
    if not form.is_valid():
        return _answer(request, workroom, form)
    sent = {"file": form.cleaned_data["archive"], "overwrite": form.cleaned_data["overwrite"]}
    return redirect(ask_for_import(workroom, **sent, by=request.user, at=timezone.now()))


def archive_import_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """All faults of an archive, or what it would do, or what it did."""
    brought = _kept(request, ArchiveImport, pk)
    work = work_for(brought)
    shown = {"import": brought, "work": work}
    if work and work.is_done:
        shown |= {"outcome": brought.outcome, "faults": brought.outcome.faults[:FAULTS_SHOWN]}
    return looked_at_again(render(request, "reading_room/archive_import_detail.html", shown), work)


@require_POST
def archive_import_take(request: HttpRequest, pk: int) -> HttpResponse:
    brought = _kept(request, ArchiveImport, pk)
    if not brought.is_ready or brought.outcome.faults or not agree(brought, at=timezone.now()):
        messages.info(request, "There is nothing to say yes to: this is how far it is.")
    return redirect(brought)


def _kept(request: HttpRequest, model: type[ArchiveExport] | type[ArchiveImport], pk: int):
    return open_for_keeping(model.objects.for_list_page(timezone.now()), request, pk)


def _answer(request: HttpRequest, workroom: Workroom, form: ArchiveForm) -> HttpResponse:
    now = timezone.now()
    shown = {
        "form": form,
        "may_carry": MAY_CARRY,
        "out": TakeOutForm(),
        "counts": [
            (count, kind.word if count > 1 else kind.model._meta.verbose_name)
            for kind in LISTS.values()
            if (count := kind.model._default_manager.of_workroom(workroom).count())
        ],
        "exports": ArchiveExport.objects.of_workroom(workroom).for_list_page(now),
        "imports": ArchiveImport.objects.of_workroom(workroom).for_list_page(now),
    }
    return render(request, "reading_room/archive_detail.html", shown)


def _name(workroom: Workroom) -> str:
    return f"{slugify(workroom.name) or 'workroom'}-{timezone.localdate():%Y-%m-%d}"
