"""The tasks of an outfit as a plan, and the days of a workroom for a calendar program."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import may_change, open_for_edit, open_for_look, workroom_for_look
from fitting.comparing.loading.maker import maker_values
from fitting.outfits.models.outfit import Outfit
from fitting.planning.actions import (
    finish_task,
    give_address,
    lay_out_usual_tasks,
    withdraw_address,
    workroom_at,
)
from fitting.planning.exchange import calendar_file
from fitting.planning.forms import TaskForm
from fitting.planning.loading.calendar import calendar_events
from fitting.planning.loading.work import work_on
from fitting.planning.models import CalendarAddress, Task
from fitting.planning.showing import bars_of, draw_plan


def task_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The tasks of an outfit as a plan: drawn, and as a table."""
    outfit = open_for_look(Outfit.objects.select_related("workroom", "maker__maker"), request, pk)
    today = timezone.localdate()
    work = work_on(outfit, today=today)
    shown = {"outfit": outfit, "may_change": may_change(request, outfit), "work": work, "today": today}
    if work.between:
        shown["drawing"] = draw_plan(
            bars_of(work.planned.rows),
            today=today,
            occasion_on=outfit.occasion_on,
            between=work.between,
            fittings=[timezone.localdate(fitting.planned_for) for fitting in work.fittings],
        )
    return render(request, "planning/task_list.html", shown)


@require_POST
def task_start(request: HttpRequest, pk: int) -> HttpResponse:
    """Lay out the usual tasks of every garment of the outfit."""
    outfit = open_for_edit(Outfit.objects.select_related("maker"), request, pk)
    laid_out = lay_out_usual_tasks(outfit, hours=maker_values(outfit.maker or request.user).hours)
    many = f"{len(laid_out)} task{'' if len(laid_out) == 1 else 's'}"
    messages.success(request, f"{many} laid out. Their hours are guesses: put your own in their place.")
    return redirect("task-list", outfit.pk)


def task_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = TaskForm(
        request.POST or None, instance=Task(outfit=outfit), initial={"garment": request.GET.get("garment")}
    )
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is in the plan.")
        return redirect("task-list", outfit.pk)
    return render(request, "planning/task_add.html", {"outfit": outfit, "form": form})


def task_change(request: HttpRequest, pk: int) -> HttpResponse:
    task = open_for_edit(Task.objects.select_related("garment"), request, pk)
    form = TaskForm(request.POST or None, instance=task)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect("task-list", task.outfit_id)
    return render(request, "planning/task_change.html", {"task": task, "outfit": task.outfit, "form": form})


@require_POST
def task_done(request: HttpRequest, pk: int) -> HttpResponse:
    task = open_for_edit(Task.objects.select_related("garment"), request, pk)
    finish_task(task, on=None if task.done_on else timezone.localdate())
    messages.success(request, f"“{task}” is {'done' if task.done_on else 'open again'}.")
    return redirect("task-list", task.outfit_id)


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
    return render(request, "planning/calendar_detail.html", shown)


@login_not_required
def calendar_feed(request: HttpRequest, secret: str) -> HttpResponse:
    """The days of a workroom for a calendar program, which cannot sign in: its address is the key."""
    workroom = workroom_at(secret, at=timezone.now())
    if workroom is None:
        raise Http404("No calendar is kept at this address.")
    timezone.activate(workroom.zone)
    events = calendar_events(workroom, today=timezone.localdate())
    answer = HttpResponse(
        calendar_file(events, name=workroom.name), content_type="text/calendar; charset=utf-8"
    )
    answer["Cache-Control"] = "private, no-store"
    answer["Referrer-Policy"] = "no-referrer"
    return answer
