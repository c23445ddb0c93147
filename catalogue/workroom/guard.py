"""Who may open what. The guard is a view's first line:

    plate = open_for_edit(Plate, request, pk)     # another workroom's member 404, a reader 403

Every page is closed to strangers by LoginRequiredMiddleware; OPEN_VIEWS lists the few that are not.
"""

from collections.abc import Callable
from typing import Any, TypeVar

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.functional import SimpleLazyObject

from catalogue.workroom.models import Member, Workroom, WorkroomModel, acting_as

# Names of the views that answer somebody who is not signed in. The access test reads this list.
OPEN_VIEWS = ("sign-in", "sign-in-once", "too-much", "calendar-feed", "shared-log", "shared-photo")

MEASURES_ARE_PERSONAL = "Body measures, and what is reckoned from them, are shown to makers and keepers only."

Row = TypeVar("Row", bound=WorkroomModel)


def current_workroom(get_response: Callable[[HttpRequest], HttpResponse]):
    """Middleware: `request.member` is the person's place in the workroom they work in, or None."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.member = SimpleLazyObject(lambda: _find_member(request))
        with acting_as(lambda: request.user if request.user.is_authenticated else None):
            return get_response(request)

    return answer


def _find_member(request: HttpRequest) -> Member | None:
    if not request.user.is_authenticated:
        return None
    memberships = list(request.user.memberships.select_related("workroom"))
    chosen = request.session.get("workroom")
    return next(
        (one for one in memberships if one.workroom_id == chosen), memberships[0] if memberships else None
    )


def workroom_context(request: HttpRequest) -> dict[str, Any]:
    """Template context: `member` (None for strangers) and `workroom`."""
    member = getattr(request, "member", None) or None
    return {"member": member, "workroom": member.workroom if member else None}


def workroom_for_look(request: HttpRequest) -> Workroom:
    """Return the workroom that the person works in; refuse whoever is in none."""
    if not request.member:
        raise PermissionDenied("You are not a member of a workroom yet. Ask its keeper to add you.")
    return request.member.workroom


def workroom_for_edit(request: HttpRequest) -> Workroom:
    workroom = workroom_for_look(request)
    if not request.member.may_write:
        raise PermissionDenied(
            "You are a reader of this workroom: you can look, not change. Its keeper can change that."
        )
    return workroom


def workroom_for_keeping(request: HttpRequest) -> Workroom:
    workroom = workroom_for_look(request)
    if not request.member.is_keeper:
        raise PermissionDenied("Only a keeper of this workroom can do that.")
    return workroom


def workroom_for_measures(request: HttpRequest) -> Workroom:
    """Return the workroom, for pages that show body measures: a reader does not see them."""
    workroom = workroom_for_look(request)
    if not request.member.may_write:
        raise PermissionDenied(MEASURES_ARE_PERSONAL)
    return workroom


def open_for_look(model: type[Row] | Any, request: HttpRequest, pk: int) -> Row:
    """Return the row; another workroom's member gets 404, a reader 403 where it holds a body measure.

    `model` may be a model or a queryset of one (`Plate.objects.for_detail_page()`).
    """
    row, member = _open(model, request, pk)
    if row.is_personal and not member.may_write:
        raise PermissionDenied(MEASURES_ARE_PERSONAL)
    return row


def open_for_edit(model: type[Row] | Any, request: HttpRequest, pk: int) -> Row:
    row, member = _open(model, request, pk)
    if not member.may_write:
        raise PermissionDenied(
            "You are a reader of this workroom: you can look, not change. Its keeper can change that."
        )
    return row


def open_for_keeping(model: type[Row] | Any, request: HttpRequest, pk: int) -> Row:
    row, member = _open(model, request, pk)
    if not member.is_keeper:
        raise PermissionDenied("Only a keeper of this workroom can do that.")
    return row


def key_of(typed: str) -> int:
    """The key of a row as an address or a box names it; 0, which no row has, for whatever is none.

    Python refuses to read a number of thousands of digits, and a database one beyond 64 bits.
    """
    return int(typed) if typed.isdecimal() and len(typed) < 19 else 0


def may_change(request: HttpRequest, row: Row) -> bool:
    """Whether the person may write in the row's workroom, for pages that show the way to do it."""
    if request.member and request.member.workroom_id == row.its_workroom().pk:
        return request.member.may_write
    return any(member.may_write for member in request.user.memberships.filter(workroom=row.its_workroom()))


def _open(model: type[Row] | Any, request: HttpRequest, pk: int) -> tuple[Row, Member]:
    rows = model.objects.all() if isinstance(model, type) else model
    path = rows.model.workroom_path
    row = rows.visible_to(request.user).select_related(path).filter(pk=pk).first()
    if row is None:
        raise Http404(f"There is no such {rows.model._meta.verbose_name} here.")
    if request.member and request.member.workroom_id == row.its_workroom().pk:
        return row, request.member
    return row, Member.objects.get(user=request.user, workroom=row.its_workroom())
