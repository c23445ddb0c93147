from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from catalogue.photographs.views import FILE_MISSING, KEPT_A_DAY
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.scan import calibrate, keep_scan
from catalogue.tracing.forms.known_lengths import KnownLengthsForm
from catalogue.tracing.forms.scan import POINTS, CalibrateForm, ScanForm
from catalogue.tracing.imaging import deepest_level, read_tile
from catalogue.tracing.loading.drawing import traced_drawing
from catalogue.tracing.loading.known_lengths import known_lengths_of
from catalogue.tracing.models import Calibration, PlateScan
from catalogue.workroom.files import open_file
from catalogue.workroom.guard import may_change, open_for_edit, open_for_look
from catalogue.workroom.views.work import looked_at_again, work_for

WAYS = {*POINTS, Calibration.Way.LENGTHS}


def scan_detail(request: HttpRequest, pk: int) -> HttpResponse:
    """The plate's scan: how far its cutting is, how it was calibrated, and what to do next."""
    plate = open_for_look(Plate.objects.select_related("reference", "scan"), request, pk)
    scan = getattr(plate, "scan", None)
    calibrations = list(scan.calibrations.prefetch_related("works")) if scan else []
    # A calibration is of no use as long as the scan itself is not ready.
    work = work_for(scan) if scan else None
    if calibrations and work and work.is_done:
        work = work_for(calibrations[0])
    shown = {
        "plate": plate,
        "scan": scan,
        "calibrations": calibrations,
        "work": work,
        "known_lengths": known_lengths_of(calibrations[0]) if calibrations else [],
        "ways": [(way, label) for way, label in Calibration.Way.choices if way in WAYS],
        "may_change": may_change(request, plate),
        "sheet": traced_drawing(plate),
    }
    return looked_at_again(render(request, "tracing/scan_detail.html", shown), work)


def scan_add(request: HttpRequest, pk: int) -> HttpResponse:
    plate = open_for_edit(Plate.objects.select_related("scan"), request, pk)
    if hasattr(plate, "scan"):
        return redirect(plate.scan)
    form = ScanForm(request.POST or None, request.FILES or None)
    if form.is_valid():
        is_photograph = form.cleaned_data["is_photograph"]
        file = form.cleaned_data["file"]
        return redirect(keep_scan(plate=plate, file=file, is_photograph=is_photograph, at=timezone.now()))
    return render(request, "tracing/scan_add.html", {"plate": plate, "form": form})


def scan_calibrate(request: HttpRequest, pk: int, way: str) -> HttpResponse:
    scan = _scan_for_edit(request, pk)
    if way not in WAYS:
        raise Http404("There is no such way to calibrate.")
    if not scan.is_ready:
        return redirect(scan)
    typed = request.POST or None
    form = (
        KnownLengthsForm.of(typed, scan=scan, user=request.user)
        if way == Calibration.Way.LENGTHS
        else CalibrateForm.of(typed, scan=scan, way=way, user=request.user)
    )
    if form.is_valid():
        calibrate(scan=scan, way=way, found=form.found, given=form.given, by=request.user, at=timezone.now())
        return redirect(scan)
    board = {
        "tiles": _tile_address("scan-tile", scan),
        "width": scan.width,
        "height": scan.height,
        "deepest": deepest_level(scan.width, scan.height),
        "pairs": way == Calibration.Way.LENGTHS,
        "grid": scan.grid["matrix"] if way == "grid" and scan.grid else None,
    }
    shown = {"plate": scan.plate, "scan": scan, "form": form, "way": way, "board": board}
    shown["way_label"] = Calibration.Way(way).label
    return render(request, "tracing/scan_calibrate.html", shown)


def scan_tile(request: HttpRequest, pk: int, level: int, column: int, row: int) -> HttpResponse:
    return _tile(open_for_look(PlateScan, request, pk), (level, column, row))


def calibration_tile(request: HttpRequest, pk: int, level: int, column: int, row: int) -> HttpResponse:
    calibration = open_for_look(Calibration.objects.select_related("scan"), request, pk)
    return _tile(calibration, (level, column, row))


def tiles_of(calibration: Calibration) -> dict[str, object]:
    """What a page needs to lay the tiles of a flattened scan: addresses, and where they lie in mm."""
    return {
        "tiles": _tile_address("calibration-tile", calibration),
        "width": calibration.width,
        "height": calibration.height,
        "deepest": deepest_level(calibration.width, calibration.height),
        "left_mm": calibration.left_mm,
        "top_mm": calibration.top_mm,
        "mm_per_px": calibration.mm_per_px,
    }


def _scan_for_edit(request: HttpRequest, pk: int) -> PlateScan:
    return open_for_edit(PlateScan.objects.select_related("plate__reference"), request, pk, by="plate")


def _tile_address(name: str, tiled: PlateScan | Calibration) -> str:
    """The address of its tiles, up to level, column and row."""
    return reverse(name, args=[tiled.pk, 0, 0, 0]).removesuffix("0/0/0/")


def _tile(tiled: PlateScan | Calibration, place: tuple[int, int, int]) -> HttpResponse:
    try:
        with open_file(tiled.tiles) as opened:
            tile = read_tile(opened, (tiled.width, tiled.height), *place)
    except FileNotFoundError:
        raise Http404(FILE_MISSING) from None
    if tile is None:
        raise Http404("There is no such tile.")
    return HttpResponse(tile, content_type="image/jpeg", headers={"Cache-Control": KEPT_A_DAY})
