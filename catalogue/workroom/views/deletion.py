"""What was deleted of late: seen, brought back, forgotten."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.views.decorators.http import require_POST

from catalogue.workroom.actions.deletion import CannotComeBack, bring_back, forget_deleted
from catalogue.workroom.guard import open_for_edit, open_for_keeping, workroom_for_edit
from catalogue.workroom.models import Deleted

ROWS_A_PAGE = 50


def deleted_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    rows = Deleted.objects.of_workroom(workroom).for_list_page(timezone.now())
    page = Paginator(rows, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "workroom/deleted_list.html", {"page": page})


@require_POST
def deleted_restore(request: HttpRequest, pk: int) -> HttpResponse:
    deleted = open_for_edit(Deleted, request, pk)
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
    deleted = open_for_keeping(Deleted, request, pk)
    if request.method == "POST":
        forget_deleted(deleted=deleted)
        messages.success(request, f"“{deleted}” is gone for good.")
        return redirect("deleted-list")
    return render(request, "workroom/deleted_forget.html", {"deleted": deleted})


def tell_deleted(request: HttpRequest, deleted: Deleted) -> None:
    """Say that it is deleted, with the button that brings it back."""
    sentence = format_html(
        '<form method="post" action="{}"><input type="hidden" name="csrfmiddlewaretoken" value="{}">'
        '“{}” is deleted. <button class="small">Bring it back</button></form>',
        reverse("deleted-restore", args=[deleted.pk]),
        get_token(request),
        deleted,
    )
    messages.success(request, sentence)
