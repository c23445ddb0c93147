from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from catalogue.photographs.views import KEPT_AN_HOUR, NOT_KEPT, picture_of_size
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from fitting.outfits.actions import change_photo, keep_entry
from fitting.outfits.forms.log import LogEntryForm, LogOfForm, LogPhotoForm
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.outfit import Outfit

ROWS_A_PAGE = 50


def log_list(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_look(Outfit, request, pk)
    asked = LogOfForm(request.GET, outfit=outfit)
    garment = asked.chosen
    entries = outfit.log.filter(garment=garment) if garment else outfit.log.all()
    shown = {
        "outfit": outfit,
        "may_change": may_change(request, outfit),
        "page": Paginator(entries.for_list_page(), ROWS_A_PAGE).get_page(request.GET.get("page")),
        "asked": asked,
        "garment": garment,
    }
    return render(request, "outfits/log_list.html", shown)


def log_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    offered = {name: request.GET.get(name) for name in ("garment", "task")}
    form = LogEntryForm(
        request.POST or None,
        request.FILES or None,
        instance=LogEntry(outfit=outfit),
        initial=offered,
        user=request.user,
    )
    if form.is_valid():
        return _keep(request, form, "Kept in the log.")
    return render(request, "outfits/log_add.html", {"outfit": outfit, "form": form})


def log_change(request: HttpRequest, pk: int) -> HttpResponse:
    entry = open_for_edit(LogEntry.objects.for_list_page(), request, pk)
    form = LogEntryForm(request.POST or None, request.FILES or None, instance=entry, user=request.user)
    if form.is_valid():
        return _keep(request, form, "The entry is changed.")
    return render(request, "outfits/log_change.html", {"entry": entry, "outfit": entry.outfit, "form": form})


def log_photo_change(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_edit(LogPhoto, request, pk)
    form = LogPhotoForm(request.POST or None, instance=photo)
    if form.is_valid():
        change_photo(photo, **form.cleaned_data)
        messages.success(request, "The photograph’s record is changed.")
        return redirect(photo.entry)
    shown = {"photo": photo, "outfit": photo.entry.outfit, "form": form}
    return render(request, "outfits/log_photo_change.html", shown)


def log_photo_file(request: HttpRequest, pk: int, size: int) -> HttpResponse:
    """A copy of a photograph of the work, to members only; of the wearer, to those who see measures."""
    photo = open_for_look(LogPhoto, request, pk)
    # It may be found to show the wearer, or be erased, later: no browser keeps it past the visit.
    return picture_of_size(photo, size, cache=NOT_KEPT if photo.shows_wearer else KEPT_AN_HOUR)


def _keep(request: HttpRequest, form: LogEntryForm, told: str) -> HttpResponse:
    entry = keep_entry(
        form.instance,
        pictures=form.cleaned_data["pictures"],
        shows_wearer=form.cleaned_data["shows_wearer"],
        finishes_task=form.cleaned_data["finishes_task"],
        by=request.user,
    )
    messages.success(request, told)
    for sentence in form.refused:
        messages.warning(request, f"Not kept: {sentence}")
    return redirect(entry)
