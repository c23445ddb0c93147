from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.workroom.guard import (
    may_change,
    open_for_edit,
    open_for_look,
    workroom_for_edit,
    workroom_for_look,
)
from fitting.outfits.forms.outfit import PatternChangeForm, PatternForm
from fitting.outfits.loading.patterns import garments_for
from fitting.outfits.models.pattern import PatternChange, PatternInHand

ROWS_A_PAGE = 50


def pattern_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    patterns = PatternInHand.objects.of_workroom(workroom).prefetch_related("changes")
    page = Paginator(patterns, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "outfits/pattern_list.html", {"page": page})


def pattern_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = PatternForm(request.POST or None, instance=PatternInHand(workroom=workroom))
    if form.is_valid():
        pattern = form.save()
        messages.success(request, f"“{pattern}” is among your patterns.")
        return redirect(pattern)
    return render(request, "outfits/pattern_add.html", {"form": form})


def pattern_detail(request: HttpRequest, pk: int) -> HttpResponse:
    pattern = open_for_look(PatternInHand.objects.prefetch_related("changes"), request, pk)
    shown = {
        "pattern": pattern,
        "matches": garments_for(pattern),
        "may_change": may_change(request, pattern),
    }
    return render(request, "outfits/pattern_detail.html", shown)


def pattern_alter(request: HttpRequest, pk: int) -> HttpResponse:
    """Note what was changed on it."""
    pattern = open_for_edit(PatternInHand, request, pk)
    form = PatternChangeForm(request.POST or None, instance=PatternChange(pattern=pattern))
    if form.is_valid():
        form.save()
        messages.success(request, "Noted.")
        return redirect(pattern)
    return render(request, "outfits/pattern_alter.html", {"pattern": pattern, "form": form})


def pattern_change(request: HttpRequest, pk: int) -> HttpResponse:
    pattern = open_for_edit(PatternInHand, request, pk)
    form = PatternForm(request.POST or None, instance=pattern)
    if form.is_valid():
        messages.success(request, f"“{form.save()}” is changed.")
        return redirect(pattern)
    return render(request, "outfits/pattern_change.html", {"pattern": pattern, "form": form})
