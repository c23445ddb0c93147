from tempfile import TemporaryFile
from zipfile import ZipFile

from django.contrib import messages
from django.http import FileResponse, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify

from catalogue.photographs.imaging import SIZES
from catalogue.workroom.guard import (
    open_for_keeping,
)
from fitting.actions.wearer import erase_wearer
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
from fitting.dossier.models import Dossier
from fitting.wearers.forms.people import WearerEraseForm
from fitting.wearers.models import Wearer


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
