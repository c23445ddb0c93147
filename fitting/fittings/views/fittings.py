"""A fitting from its plan to its close."""

from pathlib import Path

from django.contrib import messages
from django.contrib.staticfiles import finders
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.workroom.guard import open_for_edit, open_for_look, workroom_for_measures
from fitting.fittings.actions import (
    close_fitting,
    observe,
    observe_all,
    reopen_fitting,
    save_fitting,
)
from fitting.fittings.forms.observation import (
    PLACES,
    ObservationForm,
    PaperRows,
    taps_with_amount,
    taps_without_amount,
)
from fitting.fittings.forms.session import FittingCloseForm, FittingForm, earlier_alterations, first_plan
from fitting.fittings.loading.alterations import alterations_of
from fitting.fittings.loading.making import ALTERED
from fitting.fittings.models.session import Fitting
from fitting.fittings.showing.brief import brief_now
from fitting.outfits.models.outfit import Outfit

ROWS_A_PAGE = 50


def fitting_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_measures(request)
    closed = Fitting.objects.of_workroom(workroom).for_list_page().exclude(closed_at=None)
    shown = {
        "open": Fitting.objects.open_in(workroom).for_list_page(),
        "page": Paginator(closed, ROWS_A_PAGE).get_page(request.GET.get("page")),
        "outfits": Outfit.objects.of_workroom(workroom).unfinished(),
    }
    return render(request, "fittings/fitting_list.html", shown)


def fitting_plan(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit.objects.for_detail_page(), request, pk)
    plan = first_plan(outfit, at=timezone.now())
    form = FittingForm(request.POST or None, instance=Fitting(outfit=outfit), initial=plan)
    if form.is_valid():
        fitting = save_fitting(form.instance, garments=form.cleaned_data["garments"])
        messages.success(request, "The fitting is planned.")
        return redirect(fitting)
    return render(request, "fittings/fitting_plan.html", {"outfit": outfit, "form": form})


def fitting_detail(request: HttpRequest, pk: int) -> HttpResponse:
    fitting = open_for_look(Fitting.objects.for_detail_page(), request, pk)
    garments = fitting.garments.prefetch_related(*ALTERED)
    shown = {
        "fitting": fitting,
        "garments": [(garment, alterations_of(garment)) for garment in garments],
        "brief": brief_now(fitting, by=request.user, at=timezone.now()),
    }
    return render(request, "fittings/fitting_detail.html", shown)


def fitting_change(request: HttpRequest, pk: int) -> HttpResponse:
    fitting = open_for_edit(Fitting, request, pk)
    form = FittingForm(request.POST or None, instance=fitting)
    if form.is_valid():
        save_fitting(form.instance, garments=form.cleaned_data["garments"])
        messages.success(request, "The fitting is changed.")
        return redirect(fitting)
    return render(request, "fittings/fitting_change.html", {"fitting": fitting, "form": form})


def fitting_hold(request: HttpRequest, pk: int) -> HttpResponse:
    """Three taps an observation. A phone's script sends the same form and is answered in JSON."""
    fitting = open_for_edit(Fitting.objects.for_detail_page(), request, pk)
    form = ObservationForm(
        request.POST or None,
        request.FILES or None,
        fitting=fitting,
        user=request.user,
        initial={"garment": request.GET["garment"]} if "garment" in request.GET else {},
    )
    is_sent_by_script = request.headers.get("Accept") == "application/json"
    if form.is_valid():
        observation = observe(fitting, form.observed(), by=request.user, at=timezone.now())
        if is_sent_by_script:
            return JsonResponse({"kept": str(observation.client_key), "said": str(observation)})
        messages.success(request, f"Kept: {observation}")
        return redirect(f"{request.path}?garment={observation.garment_id}")
    if is_sent_by_script and request.method == "POST":
        return JsonResponse({"faults": [one for field in form.errors.values() for one in field]}, status=422)
    shown = {
        "fitting": fitting,
        "brief": brief_now(fitting, by=request.user, at=timezone.now()),
        "form": form,
        "with_amount": taps_with_amount(request.user.system),
        "without_amount": taps_without_amount(),
    }
    return render(request, "fittings/fitting_hold.html", shown)


def fitting_hold_worker(request: HttpRequest) -> HttpResponse:
    """The script that opens those pages without a connection; it may answer below its own address."""
    script = Path(finders.find("fitting/hold_worker.js")).read_bytes()
    return HttpResponse(script, content_type="text/javascript", headers={"Cache-Control": "no-cache"})


def fitting_type_up(request: HttpRequest, pk: int) -> HttpResponse:
    """The paper sheet, row by row, as if seen when the fitting was to be."""
    fitting = open_for_edit(Fitting, request, pk)
    given = {"fitting": fitting, "user": request.user}
    rows = PaperRows(request.POST or None, form_kwargs=given)
    if request.method == "POST" and rows.is_valid():
        kept = observe_all(fitting, rows.observed(), by=request.user, at=fitting.planned_for)
        messages.success(request, f"{len(kept)} observation{'s' if len(kept) > 1 else ''} kept.")
        return redirect(fitting)
    shown = {"fitting": fitting, "rows": rows, "places": PLACES}
    return render(request, "fittings/fitting_type_up.html", shown)


def fitting_close(request: HttpRequest, pk: int) -> HttpResponse:
    """Each observation becomes an alteration or is dropped; then what was open before is settled."""
    fitting = open_for_edit(Fitting.objects.for_detail_page(), request, pk)
    form = FittingCloseForm(
        request.POST if request.method == "POST" else None, fitting=fitting, user=request.user
    )
    left = [one for one in fitting.observations.all() if not one.is_settled]
    if form.is_valid() and not left:
        now = timezone.now()
        brief = brief_now(fitting, by=request.user, at=now)
        said = {"wear": brief.wear_reckoned, "checks": brief.checks_reckoned}
        close_fitting(fitting, **form.settled(), **said, by=request.user, at=now)
        messages.success(request, "The fitting is closed.")
        return redirect(fitting)
    last = fitting.wearer.measures.first() if fitting.wearer else None
    earlier = earlier_alterations(fitting)
    not_begun = earlier.exclude(pk__in=earlier.ticked())
    shown = {"fitting": fitting, "form": form, "left": left, "last": last, "not_begun": not_begun}
    return render(request, "fittings/fitting_close.html", shown)


@require_POST
def fitting_reopen(request: HttpRequest, pk: int) -> HttpResponse:
    fitting = open_for_edit(Fitting, request, pk)
    reopen_fitting(fitting)
    messages.success(request, "The fitting is open again.")
    return redirect(fitting)
