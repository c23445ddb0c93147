"""What was seen at a fitting: put right, dropped, photographed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from catalogue.photographs.views import NOT_KEPT, picture_of_size
from catalogue.workroom.guard import open_for_edit, open_for_look
from fitting.fittings.actions import drop_observation, keep_photos
from fitting.fittings.forms.observation import PLACES, ObservationPhotosForm, ObservationRowForm
from fitting.fittings.forms.session import DropForm
from fitting.fittings.models.session import Observation, ObservationPhoto

ROWS = Observation.objects.select_related("fitting__outfit", "garment")


def observation_change(request: HttpRequest, pk: int) -> HttpResponse:
    observation = open_for_edit(ROWS, request, pk)
    form = ObservationRowForm(
        request.POST or None, instance=observation, fitting=observation.fitting, user=request.user
    )
    if form.is_valid():
        form.save()
        messages.success(request, f"Changed: {observation}")
        return redirect(observation)
    shown = {"observation": observation, "form": form, "places": PLACES}
    return render(request, "fittings/observation_change.html", shown)


@require_POST
def observation_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Nothing is done about it, and why; an empty reason takes it up again."""
    observation = open_for_edit(ROWS, request, pk)
    form = DropForm(request.POST)
    if form.is_valid():
        drop_observation(observation, because=form.cleaned_data["because"])
        messages.success(request, "Dropped." if observation.dropped_because else "Taken up again.")
    else:
        messages.error(request, "Not dropped: the reason is longer than 200 letters.")
    return redirect("fitting-close", observation.fitting_id)


def observation_photo_add(request: HttpRequest, pk: int) -> HttpResponse:
    observation = open_for_edit(ROWS, request, pk)
    form = ObservationPhotosForm(request.POST or None, request.FILES or None)
    if form.is_valid():
        sent = form.cleaned_data["pictures"]
        keep_photos(observation, [picture.prepared for picture in sent])
        messages.success(request, f"{len(sent)} photograph{'s' if len(sent) > 1 else ''} kept.")
        for sentence in form.fields["pictures"].refused:
            messages.warning(request, f"Not kept: {sentence}")
        return redirect(observation)
    shown = {"observation": observation, "form": form}
    return render(request, "fittings/observation_photo_add.html", shown)


def observation_photo_file(request: HttpRequest, pk: int, size: int) -> HttpResponse:
    """A copy drawn from the photograph, to makers and keepers only."""
    photo = open_for_look(ObservationPhoto, request, pk)
    return picture_of_size(photo, size, cache=NOT_KEPT)
