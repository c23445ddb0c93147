"""Photographs of a garment: sent, put in order, looked at closely, changed, removed; and the picture files.

A picture that is shown is one that we drew ourselves, always a JPEG: `picture` sends it, a scan's tiles too.
"""

from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from catalogue.photographs.actions import add_photos, draw_parts, move_photo
from catalogue.photographs.forms import PhotoForm, PhotosForm
from catalogue.photographs.imaging import ImageRefused
from catalogue.photographs.models import SIZES, Photo, WithCopies
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.files import file_answer, is_there
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look

# A copy never changes under its address, but only this person's browser may keep it.
KEPT_A_DAY = "private, max-age=86400, immutable"
KEPT_AN_HOUR = "private, max-age=3600"
NOT_KEPT = "private, no-store"
FILE_MISSING = "The picture’s file is missing from the data folder."


def picture_of_size(photo: WithCopies, size: int, *, cache: str) -> FileResponse:
    """The copy of a photograph of any kind whose long edge is `size` pixels."""
    if size not in SIZES:
        raise Http404("Photographs are kept in other sizes.")
    return picture(photo.file(size), cache=cache)


def picture(file: str, *, cache: str) -> FileResponse:
    """The file by its name, with what a browser may do about it; 404 where it is missing."""
    return file_answer(file, missing=FILE_MISSING, cache=cache, content_type="image/jpeg")


def photo_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = PhotosForm(request.POST or None, request.FILES or None, reference=reference)
    if request.headers.get("Accept") == "application/json":
        return _answer_one_of_many(reference, form)
    if form.is_valid():
        added = add_photos(reference=reference, pictures=form.cleaned_data["pictures"], notes=form.notes())
        messages.success(request, f"{len(added)} photograph{'s' if len(added) > 1 else ''} kept.")
        for sentence in form.refused:
            messages.warning(request, f"Not kept: {sentence}")
        return redirect(reference)
    return render(request, "photographs/photo_add.html", {"reference": reference, "form": form})


def _answer_one_of_many(reference: ReferenceGarment, form: PhotosForm) -> JsonResponse:
    """The page sends pictures one after another, to show how far it is; each is kept or refused by itself."""
    if not form.is_valid():
        faults = [sentence for sentences in form.errors.values() for sentence in sentences]
        return JsonResponse({"kept": 0, "refused": faults})
    added = add_photos(reference=reference, pictures=form.cleaned_data["pictures"], notes=form.notes())
    return JsonResponse({"kept": len(added), "refused": form.refused})


def photo_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The contact sheet: every photograph of a garment, to put in order, to look at closely and to print."""
    reference = open_for_look(ReferenceGarment.objects.select_related("workroom"), request, pk)
    shown = {
        "reference": reference,
        "photos": reference.photos.select_related("source"),
        "may_change": may_change(request, reference),
    }
    return render(request, "photographs/photo_list.html", shown)


@require_POST
def photo_move(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_edit(Photo, request, pk)
    move_photo(photo=photo, by=-1 if request.POST.get("to") == "earlier" else 1)
    return redirect(f"{reverse('photo-list', args=[photo.reference_id])}#photo-{photo.pk}")


def photo_detail(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_look(Photo.objects.select_related("source"), request, pk)
    return _answer_photo(request, photo, "photographs/photo_detail.html")


def photo_close(request: HttpRequest, pk: int, column: int, row: int) -> HttpResponse:
    """One part of the photograph, as fine as it was sent."""
    photo = open_for_look(Photo.objects.select_related("source"), request, pk)
    columns, rows = photo.parts()
    if column >= columns or row >= rows:
        raise Http404("The photograph has no such part.")
    return _answer_photo(request, photo, "photographs/photo_close.html", column=column, row=row)


def _answer_photo(request: HttpRequest, photo: Photo, template: str, **part: int) -> HttpResponse:
    columns, rows = photo.parts()
    shown = {"photo": photo, "columns": range(columns), "rows": range(rows), "has_parts": columns * rows > 1}
    return render(request, template, shown | part)


def photo_part(request: HttpRequest, pk: int, column: int, row: int) -> HttpResponse:
    """The picture of one part. All parts are drawn when the first of them is asked for."""
    photo = open_for_look(Photo, request, pk)
    columns, rows = photo.parts()
    if column >= columns or row >= rows:
        raise Http404("The photograph has no such part.")
    if not is_there(photo.part(column, row)):
        try:
            draw_parts(photo)
        except ImageRefused as refused:
            raise Http404(refused.sentence) from None
    return picture(photo.part(column, row), cache=KEPT_A_DAY)


def photo_change(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_edit(Photo, request, pk)
    form = PhotoForm(request.POST or None, instance=photo)
    if form.is_valid():
        form.save()
        messages.success(request, "The photograph’s record is changed.")
        return redirect(photo.reference)
    return render(request, "photographs/photo_change.html", {"photo": photo, "form": form})


def photo_file(request: HttpRequest, pk: int, size: int) -> HttpResponse:
    """A copy drawn from the photograph, to members only. The file that was sent has no address."""
    photo = open_for_look(Photo, request, pk)
    return picture_of_size(photo, size, cache=KEPT_A_DAY)
