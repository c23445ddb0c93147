"""Home, an outfit, a garment, and a wearer's record: the pages on which many subjects stand together."""

from tempfile import TemporaryFile
from zipfile import ZipFile

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import FileResponse, HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify

from catalogue.lengths.showing import Writing
from catalogue.photographs.models import SIZES
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.workroom.files import is_there, open_file
from catalogue.workroom.guard import (
    may_change,
    open_for_edit,
    open_for_keeping,
    open_for_look,
    places_of,
    workroom_for_look,
)
from fitting.bench.actions import REWRITE, Settling, erase_wearer, settle_words
from fitting.bench.loading.attention import calls_of, on_the_table, work_on_the_table
from fitting.bench.loading.before_cutting import before_cutting
from fitting.bench.loading.dressing import in_dressing_order
from fitting.bench.loading.wearer_record import wearer_record
from fitting.bench.loading.wearer_rows import held_of
from fitting.bench.loading.wearer_words import places_naming
from fitting.comparing.showing.comparison import measures_shown
from fitting.comparing.showing.standing import garment_as_it_stands, garments_as_they_stand, layers_of
from fitting.comparing.views import comparison_values
from fitting.dossier.models import Dossier
from fitting.fittings.loading.making import making_of
from fitting.fittings.models.session import Fitting
from fitting.outfits.actions import set_stage
from fitting.outfits.loading.outfit import material_rows, spending_of, with_sums
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.showing import draw_dressing_order
from fitting.pattern.forms.version import CuttingTickForm
from fitting.wearers.forms.people import WearerEraseForm
from fitting.wearers.models import Wearer

ROWS_A_SECTION = 6
ROWS_A_PAGE = 50
ENTRIES_SHOWN = 3
DOSSIERS_SHOWN = 5


def home(request: HttpRequest) -> HttpResponse:
    """What needs attention. What is reckoned from a body is shown to those only who may write."""
    if not places_of(request).exists():
        return render(request, "bench/home_nowhere.html")
    workroom = workroom_for_look(request)
    table = on_the_table(workroom, by=request.user, at=timezone.now())
    shown = {
        "outfits": work_on_the_table(table),
        "asked": Question.objects.of_workroom(workroom).unanswered().for_list_page()[:ROWS_A_SECTION],
        "questions": Plate.objects.of_workroom(workroom).with_open_questions()[:ROWS_A_SECTION],
        "has_references": ReferenceGarment.objects.of_workroom(workroom).exists(),
    }
    if request.member.may_write:
        shown["calls"] = calls_of(table)
        shown["fittings"] = Fitting.objects.open_in(workroom).for_list_page()[:ROWS_A_SECTION]
        shown["dossiers"] = Dossier.objects.of_workroom(workroom).for_detail_page()[:ROWS_A_SECTION]
    return render(request, "bench/home.html", shown)


def outfit_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    outfits = Outfit.objects.of_workroom(workroom).for_list_page()
    page = Paginator(outfits, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "bench/outfit_list.html", {"page": page, "today": timezone.localdate()})


def outfit_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """The outfit at a glance; what is reckoned from a body has its own page."""
    outfit = open_for_look(with_sums(Outfit.objects.for_detail_page()), request, pk)
    garments = list(outfit.garments.all())
    shown = {
        "outfit": outfit,
        "may_change": may_change(request, outfit),
        "drawing": draw_dressing_order(layers_of(garments)),
        "rows": in_dressing_order(garments),
        "spending": spending_of(outfit, material_rows(outfit.materials.all())),
        "dossiers": outfit.dossiers.for_list_page()[:DOSSIERS_SHOWN],
        "entries": outfit.log.for_list_page()[:ENTRIES_SHOWN],
        "today": timezone.localdate(),
    }
    return render(request, "bench/outfit_detail.html", shown)


def outfit_dressing(request: HttpRequest, pk: int) -> HttpResponse:
    """What each garment waits for and holds up; its measures and how they hold, for those who see them."""
    outfit = open_for_look(Outfit.objects.select_related("wearer", "maker"), request, pk)
    sees_measures = may_change(request, outfit)
    standings = garments_as_they_stand(outfit, by=request.user, at=timezone.now()) if sees_measures else []
    garments = [one.garment for one in standings] if sees_measures else list(outfit.garments.all())
    shown = {
        "outfit": outfit,
        "may_change": sees_measures,
        "drawing": draw_dressing_order(layers_of(garments)),
        "rows": in_dressing_order(garments, standings),
    }
    return render(request, "bench/outfit_dressing.html", shown)


def garment_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """Readers see what it draws on; what is reckoned from a body only those who may write."""
    garment = open_for_look(Garment.objects.for_detail_page(), request, pk)
    page: dict[str, object] = {
        "garment": garment,
        "may_change": may_change(request, garment),
        "tasks": garment.tasks.open().with_hours(),
    }
    if page["may_change"]:
        standing = garment_as_it_stands(garment, by=request.user, at=timezone.now())
        writing = Writing(system=request.user.system, denominator=request.user.denominator)
        page |= {
            "standing": standing,
            "choices": garment.route_choices.all(),
            "making": making_of(standing, writing),
            "for_others": Garment.objects.same_as(garment),
        }
        if standing.used:
            page["measures"] = measures_shown(standing.used, writing)
        if standing.newest:
            made_to_fit = request.GET.get("made_to_fit", "")
            page |= comparison_values(standing, standing.newest, request.user, made_to_fit=made_to_fit)
    return render(request, "bench/garment_detail.html", page)


def wearer_export(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_keeping(Wearer, request, pk)
    now = timezone.now()
    answer = JsonResponse(
        wearer_record(wearer, at=now), json_dumps_params={"indent": 2, "ensure_ascii": False}
    )
    file_name = f"{slugify(wearer.name) or 'wearer'}-{timezone.localdate(now):%Y-%m-%d}.json"
    answer["Content-Disposition"] = f'attachment; filename="{file_name}"'
    return answer


def wearer_photographs(request: HttpRequest, pk: int) -> HttpResponse:
    """Every photograph of the person, as it is kept, in one archive."""
    wearer = open_for_keeping(Wearer, request, pk)
    archive = TemporaryFile()  # noqa: SIM115, the answer closes it when it is sent
    with ZipFile(archive, "w") as files:
        for photo in held_of(wearer).photographs:
            name = photo.file(max(SIZES))
            if is_there(name):
                with open_file(name) as file:
                    files.writestr(photo.file_name(max(SIZES)), file.read())
    archive.seek(0)
    file_name = f"{slugify(wearer.name) or 'wearer'}-photographs.zip"
    return FileResponse(archive, as_attachment=True, filename=file_name)


def wearer_erase(request: HttpRequest, pk: int) -> HttpResponse:
    wearer = open_for_keeping(Wearer, request, pk)
    form = WearerEraseForm(request.POST or None, wearer=wearer)
    if form.is_valid():
        erase_wearer(wearer, settled=_settled(request.POST))
        # Without the name: the message travels in a cookie.
        messages.success(request, "Erased, with every measure, fitting, photograph and dossier.")
        return redirect("wearer-list")
    held = held_of(wearer)
    shown = {
        "wearer": wearer,
        "form": form,
        "goes": held.told(),
        "binned": held.binned_told(),
        "outfits": wearer.outfits.all(),
        "places": places_naming(wearer.workroom, wearer.names, without=held),
    }
    return render(request, "bench/wearer_erase.html", shown)


def wearer_words(request: HttpRequest, pk: int) -> HttpResponse:
    """Where a name that somebody had before still stands: the new one is offered in its place."""
    wearer = open_for_edit(Wearer, request, pk)
    former = [name for name in wearer.former_names.splitlines() if name]
    places = [place for place in places_naming(wearer.workroom, former) if place.can_be_rewritten]
    renamed = [(place, place.renamed(former, wearer.name)) for place in places]
    if request.method == "POST":
        offered = {place.key: Settling(choice=REWRITE, words=words) for place, words in renamed}
        settle_words(places, settled=offered | _settled(request.POST))
        messages.success(request, "The words are changed as you said.")
    if request.method == "POST" or not places:
        return redirect(wearer)
    return render(request, "bench/wearer_words.html", {"wearer": wearer, "places": renamed})


def _settled(sent: QueryDict) -> dict[str, Settling]:
    """What was decided of each place, by its key; of one that came since the page was drawn, nothing."""
    return {
        name.removeprefix("choice-"): Settling(
            choice=choice, words=sent.get(f"words-{name.removeprefix('choice-')}", "")
        )
        for name, choice in sent.items()
        if name.startswith("choice-")
    }


def before_cutting_page(request: HttpRequest, pk: int) -> HttpResponse:
    """What is left before the newest version is cut. Sent by POST: a tick, or that the paper is ready."""
    garment = open_for_edit(Garment.objects.for_detail_page(), request, pk)
    standing = before_cutting(garment)
    form = CuttingTickForm(request.POST or None, version=standing.working and standing.working.version)
    if form.is_valid():
        form.keep(by=request.user, at=timezone.now())
        return redirect("before-cutting", garment.pk)
    if "patterned" in request.POST and standing.is_ready:
        set_stage(garment, Garment.Stage.PATTERNED, on=timezone.localdate())
        messages.success(request, f"{garment} is patterned: its paper is ready to be cut by.")
        return redirect(garment)
    stages = Garment.Stage.values
    is_due = stages.index(garment.stage) < stages.index(Garment.Stage.PATTERNED)
    shown = {"garment": garment, "standing": standing, "form": form, "is_due": is_due}
    return render(request, "bench/before_cutting.html", shown)
