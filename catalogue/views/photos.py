from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from catalogue.access import open_for_edit, open_for_look
from catalogue.actions.deleted import delete_for_a_while
from catalogue.actions.photos import add_photos
from catalogue.forms.photo import PhotoForm, PhotosForm
from catalogue.images import SIZES
from catalogue.models import Photo, ReferenceGarment
from catalogue.views.deleted import tell_deleted


def photo_add(request: HttpRequest, pk: int) -> HttpResponse:
    reference = open_for_edit(ReferenceGarment, request, pk)
    form = PhotosForm(request.POST or None, request.FILES or None, reference=reference)
    if form.is_valid():
        added = add_photos(reference=reference, pictures=form.cleaned_data["pictures"], notes=form.notes())
        messages.success(request, f"{len(added)} photograph{'s' if len(added) > 1 else ''} kept.")
        for sentence in form.refused:
            messages.warning(request, f"Not kept: {sentence}")
        return redirect(reference)
    return render(request, "catalogue/photo_add.html", {"reference": reference, "form": form})


def photo_change(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_edit(Photo, request, pk)
    form = PhotoForm(request.POST or None, instance=photo)
    if form.is_valid():
        form.save()
        messages.success(request, "The photograph’s record is changed.")
        return redirect(photo.reference)
    return render(request, "catalogue/photo_change.html", {"photo": photo, "form": form})


def photo_delete(request: HttpRequest, pk: int) -> HttpResponse:
    photo = open_for_edit(Photo, request, pk)
    if request.method == "POST":
        tell_deleted(request, delete_for_a_while(row=photo, by=request.user, at=timezone.now()))
        return redirect(photo.reference)
    return render(request, "catalogue/photo_delete.html", {"photo": photo})


def photo_file(request: HttpRequest, pk: int, size: int) -> HttpResponse:
    """A copy drawn from the photograph, to members only. The file that was sent has no address."""
    photo = open_for_look(Photo, request, pk)
    if size not in SIZES:
        raise Http404("Photographs are kept in other sizes.")
    try:
        picture = photo.file(size).open("rb")
    except FileNotFoundError:
        raise Http404("The picture’s file is missing from the data folder.") from None
    answer = FileResponse(picture, content_type="image/jpeg")
    answer["X-Content-Type-Options"] = "nosniff"
    # The copy never changes under its address, but only this person's browser may keep it.
    answer["Cache-Control"] = "private, max-age=86400, immutable"
    return answer
