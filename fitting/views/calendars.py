from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.guard import workroom_for_look
from fitting.actions.calendar import give_address, withdraw_address, workroom_at
from fitting.bridge.calendar import calendar_events
from fitting.exchange.calendar import calendar_file
from fitting.models.calendar import CalendarAddress


def calendar_detail(request: HttpRequest) -> HttpResponse:
    """The person's own calendar address: made, shown once, taken back."""
    workroom = workroom_for_look(request)
    shown: dict[str, object] = {}
    if "withdraw" in request.POST:
        withdraw_address(workroom, user=request.user)
        messages.success(request, "The address leads nowhere any more.")
        return redirect("calendar-detail")
    if request.method == "POST":
        secret = give_address(workroom, user=request.user)
        shown["address"] = request.build_absolute_uri(reverse("calendar-feed", args=[secret]))
    shown |= {
        "kept": CalendarAddress.objects.filter(workroom=workroom, user=request.user).first(),
        "events": calendar_events(workroom, today=timezone.localdate()),
    }
    return render(request, "fitting/calendar_detail.html", shown)


@login_not_required
def calendar_feed(request: HttpRequest, secret: str) -> HttpResponse:
    """The days of a workroom for a calendar program, which cannot sign in: its address is the key."""
    workroom = workroom_at(secret, at=timezone.now())
    if workroom is None:
        raise Http404("No calendar is kept at this address.")
    events = calendar_events(workroom, today=timezone.localdate())
    answer = HttpResponse(
        calendar_file(events, name=workroom.name), content_type="text/calendar; charset=utf-8"
    )
    answer["Cache-Control"] = "private, no-store"
    answer["Referrer-Policy"] = "no-referrer"
    return answer
