from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from catalogue.lengths.showing import Writing
from catalogue.workroom.guard import open_for_edit, open_for_look
from catalogue.workroom.models import User
from fitting.actions.comparison import compare_garment
from fitting.bridge.outfit import garment_as_it_stands
from fitting.bridge.readiness import CannotCompare
from fitting.bridge.shown import shown
from fitting.chart import draw_chart
from fitting.models.comparison import Comparison
from fitting.outfits.models.garment import Garment


@require_POST
def comparison_make(request: HttpRequest, pk: int) -> HttpResponse:
    garment = open_for_edit(Garment, request, pk)
    try:
        comparison = compare_garment(garment, by=request.user, at=timezone.now())
    except CannotCompare as fault:
        messages.error(request, f"“{garment}” cannot be compared yet. {fault}")
        return redirect(garment)
    messages.success(request, f"“{garment}” is compared.")
    return redirect(comparison)


def comparison_detail(request: HttpRequest, pk: int) -> HttpResponse:
    rows = Comparison.objects.select_related("garment__outfit__wearer", "made_by")
    comparison = open_for_look(rows, request, pk)
    garment = comparison.garment
    standing = garment_as_it_stands(garment, by=request.user, at=timezone.now())
    page = {
        "comparison": comparison,
        "garment": garment,
        "standing": standing,
        "is_newest": standing.newest == comparison,
        "is_current": standing.newest == comparison and not standing.is_out_of_date,
        "others": garment.comparisons.exclude(pk=pk).defer("inputs", "results"),
        **comparison_values(comparison, request.user, made_to_fit=request.GET.get("made_to_fit", "")),
    }
    return render(request, "fitting/comparison_detail.html", page)


def comparison_values(comparison: Comparison, reader: User, *, made_to_fit: str) -> dict[str, object]:
    """What every page that shows a comparison draws it from; `made_to_fit` as its address asks for it."""
    writing = Writing(system=reader.system, denominator=reader.denominator)
    found = shown(comparison, writing, made_to_fit=made_to_fit)
    chart = draw_chart(
        found.chart,
        title=f"{comparison.garment} against the wearer",
        system=reader.system,
        denominator=reader.denominator,
    )
    return {"shown": found, "chart": chart}
