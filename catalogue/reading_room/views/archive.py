"""All that a workroom holds out of it and into one. Keepers only: an archive holds everything at once."""

import io
import tempfile

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_POST

from catalogue.lengths.calculation.errors import Faults
from catalogue.reading_room.actions.archive import forget_upload, keep_upload, take_archive, waiting_upload
from catalogue.reading_room.exchange.archive import MAY_CARRY, write_archive
from catalogue.reading_room.exchange.spreadsheet import write_garments, write_readings
from catalogue.reading_room.forms import ArchiveForm, TakeOutForm
from catalogue.workroom.files import open_file
from catalogue.workroom.guard import workroom_for_keeping
from catalogue.workroom.kinds import LISTS
from catalogue.workroom.models import Workroom

TABLES = {"garments": write_garments, "readings": write_readings}
FAULTS_SHOWN, LEFT_OUT_SHOWN = 200, 20


def archive_detail(request: HttpRequest) -> HttpResponse:
    return _answer(request, workroom_for_keeping(request), ArchiveForm())


def archive_export(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_keeping(request)
    # Large ones lie on disk while they are sent; the file has no name there, and goes when it is sent.
    file = tempfile.TemporaryFile()  # noqa: SIM115  closed by the answer
    form = TakeOutForm(request.GET)
    personal = form.is_valid() and form.cleaned_data["personal"]
    written = write_archive(workroom, file, at=timezone.now(), personal=personal)
    file.seek(0)
    for sentence in written.left_out[:LEFT_OUT_SHOWN]:
        messages.warning(request, sentence)
    if len(written.left_out) > LEFT_OUT_SHOWN:
        messages.warning(request, f"Left out in all: {len(written.left_out)} pictures without their file.")
    return FileResponse(file, as_attachment=True, filename=f"{_name(workroom)}.zip")


def archive_csv(request: HttpRequest, table: str) -> HttpResponse:
    workroom = workroom_for_keeping(request)
    if table not in TABLES:
        raise Http404("There is no such table.")
    text = io.StringIO(newline="")
    TABLES[table](workroom, text)
    answer = HttpResponse(text.getvalue(), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{_name(workroom)}-{table}.csv"'
    return answer


@require_POST
def archive_import(request: HttpRequest) -> HttpResponse:
    """Try an archive that was sent: all its faults, or what it would do. Nothing is written yet."""
    workroom = workroom_for_keeping(request)
    form = ArchiveForm(request.POST, request.FILES)
    if not form.is_valid():
        return _answer(request, workroom, form)
    overwrite = form.cleaned_data["overwrite"]
    try:
        taken = take_archive(
            workroom=workroom, file=form.cleaned_data["archive"], overwrite=overwrite, only_try=True
        )
    except Faults as faulty:
        shown = {"faults": faulty.faults[:FAULTS_SHOWN], "fault_count": len(faulty.faults)}
        return _answer(request, workroom, form, **shown)
    token = keep_upload(form.cleaned_data["archive"])
    request.session["archive"] = {"token": token, "overwrite": overwrite, "workroom": workroom.pk}
    return render(request, "reading_room/archive_import.html", {"taken": taken, "token": token})


@require_POST
def archive_take(request: HttpRequest) -> HttpResponse:
    """Take the archive that was tried; read again, because what is here may have changed since."""
    workroom = workroom_for_keeping(request)
    tried = request.session.pop("archive", {})
    name = waiting_upload(tried.get("token", ""))
    is_the_one = tried.get("token") == request.POST.get("token") and tried.get("workroom") == workroom.pk
    if name is None or not is_the_one:
        messages.error(request, "That archive is no longer here: choose it again.")
        return redirect("archive-detail")
    try:
        with open_file(name) as file:
            taken = take_archive(workroom=workroom, file=file, overwrite=tried["overwrite"], only_try=False)
    except Faults as faulty:
        shown = {"faults": faulty.faults[:FAULTS_SHOWN], "fault_count": len(faulty.faults)}
        return _answer(request, workroom, ArchiveForm(), **shown)
    forget_upload(tried["token"])
    for word, rows in taken.in_words():
        messages.success(request, f"{word.capitalize()}: {rows}.")
    if taken.added["scans"]:
        messages.info(request, "The scans are being cut: a plate can be traced on when its own is ready.")
    return redirect("reference-list")


def _answer(request: HttpRequest, workroom: Workroom, form: ArchiveForm, **more: object) -> HttpResponse:
    shown = {
        "form": form,
        "may_carry": MAY_CARRY,
        "out": TakeOutForm(),
        "counts": [
            (count, kind.word if count > 1 else kind.model._meta.verbose_name)
            for kind in LISTS.values()
            if (count := kind.model._default_manager.of_workroom(workroom).count())
        ],
        **more,
    }
    return render(request, "reading_room/archive_detail.html", shown)


def _name(workroom: Workroom) -> str:
    return f"{slugify(workroom.name) or 'workroom'}-{timezone.localdate():%Y-%m-%d}"
