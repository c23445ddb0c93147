"""How a page looks at the long work of its row, without a script; stopping it, and trying it again."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import open_for_edit, open_for_keeping
from catalogue.workroom.work.attempt import listen
from catalogue.workroom.work.engine import stop, sweep_work, try_again
from catalogue.workroom.work.models import Work, WorkedModel

LOOK_AGAIN_SECONDS = 1


def work_for(row: WorkedModel) -> Work | None:
    """The work of a row that a page is about, swept where its process was killed."""
    work, now = row.work, timezone.now()
    if work and not listen(work, at=now).is_inside and work.is_silent(now):
        sweep_work(at=now)
        work.refresh_from_db()
    return work


def looked_at_again(answer: HttpResponse, work: Work | None) -> HttpResponse:
    """The page, which the browser asks for again by itself while the work goes on."""
    if work and work.is_unfinished:
        answer["Refresh"] = str(LOOK_AGAIN_SECONDS)
        answer["Cache-Control"] = "private, no-store"
    return answer


@require_POST
def work_stop(request: HttpRequest, pk: int) -> HttpResponse:
    work = _open(request, pk)
    if listen(work, at=timezone.now()).is_inside:
        messages.info(request, "It is too late to stop it: it is being written, and will be ready soon.")
    else:
        stop(work)
        messages.success(request, work.row.long_work.when_stopped)
    return redirect(work.row)


@require_POST
def work_again(request: HttpRequest, pk: int) -> HttpResponse:
    work = _open(request, pk)
    try_again(work, at=timezone.now())
    return redirect(work.row)


def _open(request: HttpRequest, pk: int) -> Work:
    work = open_for_edit(Work, request, pk)
    return open_for_keeping(Work, request, pk) if work.row.long_work.is_for_keepers else work
