"""Who may open what. The guard is a view's first line:

    plate = open_for_edit(Plate, request, pk)     # another workroom's member 404, a reader 403

Every page is closed to strangers by LoginRequiredMiddleware; OPEN_VIEWS lists the few that are not.

A session works in one workroom, and reaches no row of another. Which, the person has chosen; whoever has one
place only need not be asked. It is never guessed: a place that others give or take moves nobody's session.
"""

from collections.abc import Callable
from typing import Any, TypeVar

from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.models import Member, Workroom, WorkroomModel, acting_as

# Names of the views that answer somebody who is not signed in. The access test reads this list.
OPEN_VIEWS = (
    "sign-in", "sign-in-once", "invitation-open", "invitation-answer", "invitation-join",
    "too-much", "calendar-feed", "shared-log", "shared-photo",
)  # fmt: skip

# In the session: the workroom that the person works in.
WORKROOM = "workroom"
# In the session of whoever opened an invitation: its key.
INVITATION = "invitation"
# In the session of somebody who came in by a one-time address: its key. They stay in that workroom.
CAME_IN_BY = "came in by"

MEASURES_ARE_PERSONAL = "Body measures, and what is reckoned from them, are shown to makers and keepers only."

Row = TypeVar("Row", bound=WorkroomModel)


class NoWorkroomChosen(Exception):
    """The person is in several workrooms, or no longer in the one they worked in: they are asked."""


def current_workroom(get_response: Callable[[HttpRequest], HttpResponse]):
    """Middleware: `request.member` is the person's place in the workroom they work in, or None.

    Hours are those of that workroom, on the page and in what is typed.
    """

    def answer(request: HttpRequest) -> HttpResponse:
        request.member = _find_member(request)
        zone = request.member.workroom.zone if request.member else None
        with (
            acting_as(lambda: request.user if request.user.is_authenticated else None),
            timezone.override(zone),
        ):
            return get_response(request)

    def process_exception(request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if not isinstance(exception, NoWorkroomChosen):
            return None
        back = {"next": request.get_full_path()} if request.method == "GET" else {}
        return redirect(reverse("workroom-choose", query=back))

    answer.process_exception = process_exception
    return answer


def places_of(request: HttpRequest) -> QuerySet[Member]:
    """The places among which the session may choose."""
    places = request.user.memberships.select_related("workroom")
    return places.filter(workroom=request.session[WORKROOM]) if CAME_IN_BY in request.session else places


def settle(request: HttpRequest) -> None:
    """Whoever signs in and has one place works there from now on: a second one leaves them where they are."""
    places = places_of(request)
    if WORKROOM not in request.session and len(places) == 1:
        request.session[WORKROOM] = places[0].workroom_id


def _find_member(request: HttpRequest) -> Member | None:
    if not request.user.is_authenticated:
        return None
    places = list(places_of(request))
    if WORKROOM not in request.session:
        return places[0] if len(places) == 1 else None
    return next((one for one in places if one.workroom_id == request.session[WORKROOM]), None)


def workroom_context(request: HttpRequest) -> dict[str, Any]:
    """Template context: `member` (None for strangers), `workroom`, and whether an invitation waits."""
    member = getattr(request, "member", None)
    return {
        "member": member,
        "workroom": member.workroom if member else None,
        "is_invited": INVITATION in getattr(request, "session", {}),
    }


def workroom_for_look(request: HttpRequest) -> Workroom:
    """Return the workroom that the person works in; refuse whoever is in none. Raises NoWorkroomChosen."""
    if not request.member:
        if places_of(request).exists():
            raise NoWorkroomChosen
        raise PermissionDenied("You are not a member of a workroom yet. Ask its keeper to invite you.")
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


def open_for_edit(model: type[Row] | Any, request: HttpRequest, number: int, *, by: str = "pk") -> Row:
    """`by`: the field that has this number, where another row than its own is in the address."""
    row, member = _open(model, request, number, by)
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
    return request.member.may_write and request.member.workroom_id == row.its_workroom().pk


def _open(model: type[Row] | Any, request: HttpRequest, number: int, by: str = "pk") -> tuple[Row, Member]:
    workroom = workroom_for_look(request)
    rows = model.objects.all() if isinstance(model, type) else model
    row = rows.of_workroom(workroom).select_related(rows.model.workroom_path).filter(**{by: number}).first()
    if row is None:
        raise Http404(f"There is no such {rows.model._meta.verbose_name} here.")
    return row, request.member
