from django.contrib import messages
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import get_valid_filename
from django.views.decorators.http import require_POST

from catalogue.access import open_for_edit, open_for_look
from fitting.actions.dossier import ask_again, ask_for_dossier, sweep_stopped
from fitting.dossier.sections import SECTIONS, in_order
from fitting.forms.dossier import DossierForm
from fitting.models import Dossier, Outfit

LOOK_AGAIN_SECONDS = 1


def dossier_add(request: HttpRequest, pk: int) -> HttpResponse:
    outfit = open_for_edit(Outfit, request, pk)
    form = DossierForm(request.POST or None, outfit=outfit, user=request.user)
    if form.is_valid():
        dossier = ask_for_dossier(outfit, **form.cleaned_data, by=request.user, at=timezone.now())
        return redirect(dossier)
    return render(request, "fitting/dossier_add.html", {"outfit": outfit, "form": form})


def dossier_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """How far it is, until it is ready: the browser asks again by itself, without a script."""
    dossier = open_for_look(Dossier.objects.for_detail_page(), request, pk)
    if dossier.is_stopped:
        sweep_stopped(at=timezone.now())
        dossier.refresh_from_db()
    holds = [SECTIONS[key].label for key in in_order(dossier.sections)]
    answer = render(request, "fitting/dossier_detail.html", {"dossier": dossier, "holds": holds})
    if dossier.is_unfinished:
        answer["Refresh"] = str(LOOK_AGAIN_SECONDS)
    answer["Cache-Control"] = "private, no-store"
    return answer


def dossier_file(request: HttpRequest, pk: int) -> HttpResponse:
    """The PDF, under the outfit's name and the day. It shows a body: no shared machine may keep it."""
    dossier = open_for_look(Dossier.objects.for_detail_page(), request, pk)
    if dossier.state != Dossier.State.DONE:
        raise Http404("This dossier is not ready.")
    try:
        pdf = dossier.path.open("rb")
    except FileNotFoundError:
        raise Http404("The dossier’s file is missing from the data folder. Print it again.") from None
    answer = FileResponse(
        pdf, as_attachment=True, content_type="application/pdf", filename=_file_name(dossier)
    )
    answer["Cache-Control"] = "private, no-store"
    return answer


@require_POST
def dossier_again(request: HttpRequest, pk: int) -> HttpResponse:
    dossier = open_for_edit(Dossier.objects.for_detail_page(), request, pk)
    if dossier.is_unfinished:
        return redirect(dossier)
    return redirect(ask_again(dossier, by=request.user, at=timezone.now()))


def dossier_delete(request: HttpRequest, pk: int) -> HttpResponse:
    dossier = open_for_edit(Dossier.objects.for_detail_page(), request, pk)
    if request.method == "POST":
        outfit = dossier.outfit
        dossier.delete()
        messages.success(request, "The dossier and its file are deleted.")
        return redirect(outfit)
    return render(request, "fitting/dossier_delete.html", {"dossier": dossier})


def _file_name(dossier: Dossier) -> str:
    """The-egg-seller-2026-11-25.pdf, from whatever the outfit is called."""
    words = get_valid_filename(f"{dossier.outfit.name} {dossier.asked_at:%Y-%m-%d}"[-120:])
    return f"{words.replace('_', '-')}.pdf"
