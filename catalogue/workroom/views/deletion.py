"""One page that deletes a row of any kind; what was deleted of late: seen, brought back, forgotten."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.views.decorators.http import require_POST

from catalogue.workroom.actions.deletion import (
    CannotComeBack,
    bring_back,
    delete_for_a_while,
    forget_deleted,
)
from catalogue.workroom.deletions import DELETIONS, Notice, link_to
from catalogue.workroom.guard import open_for_edit, open_for_keeping, workroom_for_edit
from catalogue.workroom.models import DeletedRow, WorkroomModel
from catalogue.workroom.showing import what_goes_with

ROWS_A_PAGE = 50
PICTURE_PX = 320
BIN = ("Recently deleted", "deleted-list")
NEVER_AGAIN = "It and all that went with it, files of photographs too, can never come back."


def deleted_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    rows = DeletedRow.objects.of_workroom(workroom).for_list_page(timezone.now())
    page = Paginator(rows, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "workroom/deleted_list.html", {"page": page})


@require_POST
def deleted_restore(request: HttpRequest, pk: int) -> HttpResponse:
    deleted = open_for_edit(DeletedRow, request, pk)
    try:
        row = bring_back(deleted=deleted)
    except CannotComeBack as fault:
        messages.error(request, fault.sentence)
        return redirect("deleted-list")
    messages.success(request, f"“{deleted}” is back.")
    while not hasattr(row, "get_absolute_url"):
        row = getattr(row, row.workroom_path.split("__")[0])
    return redirect(row)


def deleted_forget(request: HttpRequest, pk: int) -> HttpResponse:
    deleted = open_for_keeping(DeletedRow, request, pk)
    if request.method == "POST":
        forget_deleted(deleted=deleted)
        messages.success(request, f"“{deleted}” is gone for good.")
        return redirect("deleted-list")
    shown = {
        "question": f"Delete “{deleted}” for good",
        "crumbs": [link_to(BIN)],
        "notices": [Notice(sentence=NEVER_AGAIN)],
        "is_for_good": True,
        "submit": "Delete for good",
        "cancel": link_to(BIN).url,
    }
    return render(request, "workroom/row_delete.html", shown)


def row_delete(request: HttpRequest, pk: int, model: type[WorkroomModel]) -> HttpResponse:
    """Ask, then delete a row of any kind. `pk`: its number, or that of the row named by the kind's key."""
    deletion = DELETIONS[model]
    row = open_for_edit(model, request, pk, by=deletion.key)
    obstacle = deletion.obstacle(row)
    if request.method == "POST" and not obstacle:
        _tell_deleted(request, delete_for_a_while(row=row, by=request.user))
        return redirect(deletion.after(row))
    shown = {
        "row": row,
        "question": deletion.question(row),
        "crumbs": deletion.crumbs(row),
        "picture": deletion.picture and reverse(deletion.picture, args=[row.pk, PICTURE_PX]),
        "obstacle": obstacle,
        "goes": [] if obstacle else what_goes_with(row),
        "notices": deletion.notices(row, request.user),
        "submit": deletion.button,
        "cancel": row.get_absolute_url() if hasattr(row, "get_absolute_url") else deletion.after(row),
    }
    return render(request, "workroom/row_delete.html", shown)


def _tell_deleted(request: HttpRequest, deleted: DeletedRow) -> None:
    """Say that it is deleted, with the button that brings it back."""
    sentence = format_html(
        '<form method="post" action="{}"><input type="hidden" name="csrfmiddlewaretoken" value="{}">'
        '“{}” is deleted. <button class="small">Bring it back</button></form>',
        reverse("deleted-restore", args=[deleted.pk]),
        get_token(request),
        deleted,
    )
    messages.success(request, sentence)
