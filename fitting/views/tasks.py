from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from fitting.actions.task import lay_out_usual_tasks
from fitting.bridge.work import bars_of, work_on
from fitting.comparing.loading.maker import maker_values
from fitting.forms.task import TaskForm
from fitting.models.task import Task
from fitting.outfits.models.outfit import Outfit
from fitting.plan_chart import draw_plan


def task_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The tasks of an outfit as a plan: drawn, and as a table."""
    outfit = open_for_look(Outfit.objects.select_related("workroom", "maker__maker"), request, pk)
    today = timezone.localdate()
    work = work_on(outfit, today=today)
    shown = {"outfit": outfit, "may_change": may_change(request, outfit), "work": work}
    if work.between:
        shown["drawing"] = draw_plan(
            bars_of(work.planned.rows), today=today, occasion_on=outfit.occasion_on, between=work.between
        )
    return render(request, "fitting/task_list.html", shown)


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
    return render(request, "fitting/task_add.html", {"outfit": outfit, "form": form})


def task_change(request: HttpRequest, pk: int) -> HttpResponse:
    task = open_for_edit(Task.objects.select_related("garment"), request, pk)
    form = TaskForm(request.POST or None, instance=task)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect("task-list", task.outfit_id)
    return render(request, "fitting/task_change.html", {"task": task, "outfit": task.outfit, "form": form})


@require_POST
def task_done(request: HttpRequest, pk: int) -> HttpResponse:
    task = open_for_edit(Task.objects.select_related("garment"), request, pk)
    task.done_on = None if task.done_on else timezone.localdate()
    task.save(update_fields=["done_on", "changed_at"])
    messages.success(request, f"“{task}” is {'done' if task.done_on else 'open again'}.")
    return redirect("task-list", task.outfit_id)


def task_delete(request: HttpRequest, pk: int) -> HttpResponse:
    task = open_for_edit(Task.objects.select_related("garment"), request, pk)
    if request.method == "POST":
        task.delete()
        messages.success(request, f"“{task}” is deleted. What the log says of it stays.")
        return redirect("task-list", task.outfit_id)
    return render(request, "fitting/task_delete.html", {"task": task, "outfit": task.outfit})
