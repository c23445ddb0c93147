from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import get_valid_filename

from catalogue.lengths.showing import Writing
from catalogue.photographs.views import NOT_KEPT
from catalogue.workroom.files import file_answer
from catalogue.workroom.guard import key_of, may_change, open_for_edit, open_for_look
from catalogue.workroom.views.work import looked_at_again, work_for
from fitting.dossier.actions import ask_for_dossier
from fitting.dossier.calculation import SECTIONS, known
from fitting.dossier.forms import DossierForm
from fitting.dossier.loading.history import from_each_to_the_next, since
from fitting.dossier.loading.snapshot import snapshot_now
from fitting.dossier.models import Dossier
from fitting.outfits.models.outfit import Outfit

ROWS_A_PAGE = 50


def dossier_add(request: HttpRequest, pk: int) -> HttpResponse:
    """`?fitting=7`: what one carries to that one."""
    outfit = open_for_edit(Outfit, request, pk)
    fitting = outfit.fittings.filter(pk=key_of(request.GET.get("fitting", ""))).first()
    form = DossierForm(request.POST or None, outfit=outfit, user=request.user, fitting=fitting)
    if form.is_valid():
        dossier = ask_for_dossier(outfit, **form.wish, by=request.user, at=timezone.now())
        return redirect(dossier)
    return render(request, "dossier/dossier_add.html", {"outfit": outfit, "form": form})


def dossier_list(request: HttpRequest, pk: int) -> HttpResponse:
    """All that are kept of an outfit, each with what changed until the next."""
    outfit = open_for_edit(Outfit.objects.for_detail_page(), request, pk)
    dossiers = list(outfit.dossiers.select_related("made_by").prefetch_related("works"))
    now = snapshot_now(outfit, by=request.user, at=timezone.now()) if dossiers else None
    told = list(from_each_to_the_next(dossiers, now, outfit.wearer_id, _writing(request)))
    page = Paginator(told, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "dossier/dossier_list.html", {"outfit": outfit, "page": page})


def dossier_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """How far it is, until it is ready: the browser asks again by itself, without a script."""
    dossier = open_for_look(Dossier.objects.for_detail_page(), request, pk)
    work = work_for(dossier)
    shown = {"dossier": dossier, "work": work, "may_change": may_change(request, dossier)}
    shown |= {"holds": [SECTIONS[key].label for key in known(dossier.sections)]}
    if work and work.is_done:
        shown["twin"] = Dossier.objects.twin_of(dossier)
        if dossier.snapshot and dossier.wearer_id == dossier.outfit.wearer_id:
            now = snapshot_now(dossier.outfit, by=request.user, at=timezone.now())
            shown["since"] = since(dossier, now, _writing(request))
    answer = looked_at_again(render(request, "dossier/dossier_detail.html", shown), work)
    answer["Cache-Control"] = NOT_KEPT
    return answer


def dossier_file(request: HttpRequest, pk: int) -> HttpResponse:
    """The PDF, under the outfit's name and the day. It shows a body: no shared machine may keep it."""
    dossier = open_for_look(Dossier.objects.for_detail_page(), request, pk)
    if not dossier.is_ready:
        raise Http404("This dossier is not ready.")
    return file_answer(
        dossier.file,
        missing="The dossier’s file is missing from the data folder. Print it again.",
        cache=NOT_KEPT,
        as_attachment=True,
        content_type="application/pdf",
        filename=_file_name(dossier),
    )


def _writing(request: HttpRequest) -> Writing:
    return Writing(system=request.user.system, denominator=request.user.denominator)


def _file_name(dossier: Dossier) -> str:
    """The-egg-seller-2026-11-25.pdf, from whatever the outfit is called."""
    day = timezone.localdate(dossier.asked_at)
    words = get_valid_filename(f"{dossier.outfit.name} {day.isoformat()}"[-120:])
    return f"{words.replace('_', '-')}.pdf"
