from tempfile import TemporaryFile
from zipfile import ZipFile

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import FileResponse, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify

from catalogue.photographs.imaging import SIZES
from catalogue.workroom.guard import (
    open_for_edit,
    open_for_keeping,
    open_for_look,
    workroom_for_edit,
    workroom_for_measures,
)
from fitting.actions.wearer import erase_wearer
from fitting.bridge.wearer import measures_over_time, newest_standing, stale_days_of
from fitting.bridge.wearer_record import wearer_record
from fitting.bridge.wearer_rows import (
    alterations_for,
    fitting_photos_of,
    fittings_of,
    log_photos_of,
    shares_of,
    trial_measures_of,
    where_named,
)
from fitting.figure import draw_figures, lines_of, numbers_of
from fitting.forms.takes import TAKES
from fitting.forms.wearer import WearerEraseForm, WearerForm
from fitting.models.dossier import Dossier
from fitting.models.wearer import Measures, Wearer

ROWS_A_PAGE = 50


def wearer_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_measures(request)
    wearers = Wearer.objects.of_workroom(workroom).for_list_page()
    page = Paginator(wearers, ROWS_A_PAGE).get_page(request.GET.get("page"))
    days, today = stale_days_of(request.user), timezone.localdate()
    rows = [(one, *newest_standing(one, stale_days=days, today=today)) for one in page]
    return render(request, "fitting/wearer_list.html", {"page": page, "rows": rows})


def wearer_detail(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_look(Wearer.objects.for_detail_page(), request, pk)
    table = measures_over_time(wearer, stale_days=stale_days_of(request.user), today=timezone.localdate())
    shown = {"wearer": wearer, "table": table, "numbers": numbers_of(wearer.dress)}
    return render(request, "fitting/wearer_detail.html", shown)


def wearer_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    form = WearerForm(request.POST or None, instance=Wearer(workroom=workroom))
    if form.is_valid():
        wearer = form.save()
        messages.success(request, "Next: take measures, or print the sheet and fill it in by hand.")
        return redirect(wearer)
    return render(request, "fitting/wearer_add.html", {"form": form})


def wearer_change(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_edit(Wearer, request, pk)
    form = WearerForm(request.POST or None, instance=wearer)
    if form.is_valid():
        messages.success(request, "Changed.")
        return redirect(form.save())
    return render(request, "fitting/wearer_change.html", {"form": form, "wearer": wearer})


def wearer_export(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_keeping(Wearer, request, pk)
    now = timezone.now()
    answer = JsonResponse(
        wearer_record(wearer, at=now), json_dumps_params={"indent": 2, "ensure_ascii": False}
    )
    file_name = f"{slugify(wearer.name) or 'wearer'}-{now:%Y-%m-%d}.json"
    answer["Content-Disposition"] = f'attachment; filename="{file_name}"'
    return answer


def wearer_photographs(request: HttpRequest, pk: int) -> HttpResponse:
    """Every photograph of the person, as it is kept, in one archive."""
    wearer = open_for_keeping(Wearer, request, pk)
    archive = TemporaryFile()  # noqa: SIM115, the answer closes it when it is sent
    with ZipFile(archive, "w") as files:
        for photo in (*fitting_photos_of(wearer), *log_photos_of(wearer)):
            file = photo.file(max(SIZES))
            if file.exists():
                files.write(file, file.name)
    archive.seek(0)
    file_name = f"{slugify(wearer.name) or 'wearer'}-photographs.zip"
    return FileResponse(archive, as_attachment=True, filename=file_name)


def wearer_erase(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_keeping(Wearer, request, pk)
    form = WearerEraseForm(request.POST or None, wearer=wearer)
    if form.is_valid():
        erase_wearer(wearer)
        # Without the name: the message travels in a cookie.
        messages.success(request, "Erased, with every measure, fitting, photograph and dossier.")
        return redirect("wearer-list")
    shown = {
        "wearer": wearer,
        "form": form,
        "measures": wearer.measures.all(),
        "comparisons": wearer.comparisons.select_related("garment__outfit"),
        "dossiers": Dossier.objects.showing(wearer),
        "fittings": fittings_of(wearer),
        "counts": {
            "alterations": alterations_for(wearer).count(),
            "measures of toiles": trial_measures_of(wearer).count(),
            "photographs": fitting_photos_of(wearer).count() + log_photos_of(wearer).count(),
            "secret addresses of a log": shares_of(wearer).count(),
        },
        "outfits": wearer.outfits.all(),
        "named": where_named(wearer),
    }
    return render(request, "fitting/wearer_erase.html", shown)


def wearer_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    """A sheet to print and fill in by hand, with a drawing of where each measure is taken."""
    wearer = open_for_look(Wearer, request, pk)
    lines = lines_of(wearer.dress)
    shown = {
        "wearer": wearer,
        "figures": draw_figures(wearer.dress),
        "numbers": numbers_of(wearer.dress),
        "parts": [
            (heading, [line for line in lines if line.kind == kind])
            for heading, kind in (("Girths", "girth"), ("Lengths", "length"))
        ],
        "states": Measures.State.labels,
        "takes": TAKES,
    }
    return render(request, "fitting/wearer_sheet.html", shown)
