"""A scan is kept safely, cut into tiles, calibrated four ways and flattened on to its true place."""

import io
from typing import BinaryIO

import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from catalogue.tracing.imaging import SIDE, cut_tiles, deepest_level, read_tile, strips_of
from catalogue.tracing.loading.outlines import map_of
from catalogue.tracing.models import PlateScan
from catalogue.workroom.actions.deletion import forget_deleted
from catalogue.workroom.files import names_in, open_file
from catalogue.workroom.models import DeletedRow
from catalogue.workroom.work.models import Work
from tests.makers.drawn_plates import SQUARE_MM, drawn_plate
from tests.makers.rows import make_bodice_plate

PIECE = [(127.0, 127.0), (381.0, 101.6), (431.8, 558.8), (152.4, 609.6)]


@pytest.fixture
def plate(people):
    return make_bodice_plate(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture(autouse=True)
def in_this_process(done_at_once, django_capture_on_commit_callbacks):
    """The process that the page would start, run at once where the test stands."""
    return django_capture_on_commit_callbacks


def as_file(picture: Image.Image, kind: str = "PNG", **given) -> SimpleUploadedFile:
    octets = io.BytesIO()
    picture.save(octets, kind, **given)
    return SimpleUploadedFile(f"plate.{kind.lower()}", octets.getvalue())


def send(maker, plate, file, callbacks) -> PlateScan:
    with callbacks(execute=True):
        answer = maker.post(reverse("scan-add", args=[plate.pk]), {"file": file})
    assert answer.status_code == 302, answer.context["form"].errors
    return PlateScan.objects.get(plate=plate)


def calibrate(maker, plate, way, given, callbacks):
    with callbacks(execute=True):
        answer = maker.post(reverse("scan-calibrate", args=[plate.pk, way]), given)
    assert answer.status_code == 302, answer.context["form"].errors
    return plate.scan.calibrations.first()


def laid_together(opened: BinaryIO, width: int, height: int) -> np.ndarray:
    """The picture that the tiles of the deepest level make."""
    whole = Image.new("L", (-(-width // SIDE) * SIDE, -(-height // SIDE) * SIDE))
    deepest = deepest_level(width, height)
    for column in range(whole.width // SIDE):
        for row in range(whole.height // SIDE):
            with Image.open(io.BytesIO(read_tile(opened, (width, height), deepest, column, row))) as tile:
                assert tile.size == (SIDE, SIDE)
                whole.paste(tile.convert("L"), (column * SIDE, row * SIDE))
    return np.asarray(whole)[:height, :width]


def test_tiles_laid_together_are_the_picture():
    draw = np.random.default_rng(1)
    picture = Image.fromarray(draw.integers(0, 255, (45, 65), dtype=np.uint8)).resize((1300, 901))
    tiles = io.BytesIO()
    cut_tiles(picture.size, strips_of(picture), tiles, lambda percent: None)
    together = laid_together(tiles, 1300, 901).astype(int)
    assert np.abs(together - np.asarray(picture, dtype=int)).mean() < 2
    with Image.open(io.BytesIO(read_tile(tiles, picture.size, 0, 0, 0))) as smallest:
        # 1300 halved twice is 325: what lies beyond is paper, not a stretched picture.
        assert np.asarray(smallest.convert("L"))[300:, 400:].min() > 250


# By hand: 1300 by 901 are 3 by 2 squares of 512; halved, 650 by 451, 2 by 1; halved again, 1.
@pytest.mark.parametrize("place", [(2, 3, 0), (2, 0, 2), (1, 0, 1), (0, 1, 0), (3, 0, 0), (0, 0, 1)])
def test_a_tile_beyond_the_picture_is_none(place):
    assert read_tile(io.BytesIO(), (1300, 901), *place) is None


@pytest.mark.parametrize("seed", [2, 5])
def test_a_line_traced_on_the_flattened_scan_lies_on_the_drawn_one(maker, plate, in_this_process, seed):
    drawn = drawn_plate(seed, outlines=(PIECE,))
    scan = send(maker, plate, as_file(drawn.picture), in_this_process)
    assert scan.is_ready, scan.work.fault
    calibration = calibrate(maker, plate, "grid", {"square": "1 in"}, in_this_process)
    with open_file(calibration.tiles) as tiles:
        seen = laid_together(tiles, calibration.width, calibration.height)
    flat = map_of(calibration)
    along = np.linspace(0, 1, 60)[5:-5, None]
    for a, b in zip(PIECE, PIECE[1:] + PIECE[:1], strict=True):
        pixels = drawn.to_px(np.array(a) + (np.array(b) - np.array(a)) * along)
        placed = flat.to_mm([complex(x, y) for x, y in pixels])
        spots = [
            ((p.real - calibration.left_mm), (p.imag - calibration.top_mm)) for p in placed
        ] / np.float64(calibration.mm_per_px)
        across = np.array([[(b[1] - a[1]), -(b[0] - a[0])]]) / np.hypot(b[0] - a[0], b[1] - a[1])
        offsets = np.arange(-4, 5)
        dark = [
            seen[(spots + across * o).astype(int)[:, 1], (spots + across * o).astype(int)[:, 0]]
            for o in offsets
        ]
        # The darkest place across the line is within a pixel of where the truth has it.
        assert abs(offsets[np.argmin(np.mean(dark, axis=1))]) <= 1


def test_points_a_pixel_off_are_laid_on_the_printed_line(maker, plate, in_this_process):
    drawn = drawn_plate(2, size=(2400, 1800), pitch=40, outlines=(PIECE,))
    send(maker, plate, as_file(drawn.picture), in_this_process)
    calibration = calibrate(maker, plate, "grid", {"square": "1 in"}, in_this_process)
    true, flat = [complex(*at) for at in drawn.to_px(np.array(PIECE))], map_of(calibration)
    off = [1.2 - 0.8j, -1.5 + 0.4j, 0.9 + 1.1j, -0.7 - 1.3j]
    clicked = flat.to_mm([at + by for at, by in zip(true, off, strict=True)])
    nodes = [{"x": at.real, "y": at.imag, "corner": True, "curved": False, "edge": ""} for at in clicked]
    address = reverse("outline-onto-line", args=[plate.pieces.first().pk])
    said = maker.post(address, {"nodes": nodes}, content_type="application/json").json()
    laid = flat.to_px([complex(node["x"], node["y"]) for node in said["nodes"]])
    assert max(abs(a - b) for a, b in zip(laid, true, strict=True)) < 0.5
    assert maker.post(address, {"nodes": "far"}, content_type="application/json").status_code == 400


def test_four_corners_and_a_bar_measure_what_is_there(maker, plate, in_this_process):
    drawn = drawn_plate(7)
    send(maker, plate, as_file(drawn.picture), in_this_process)
    true = [(5, 5), (50, 5), (50, 35), (5, 35)]
    corners = drawn.to_px(np.array(true) * SQUARE_MM)
    given = {f"{axis}{n}": corners[n - 1][i] for n in range(1, 5) for i, axis in enumerate("xy")}
    calibration = calibrate(
        maker, plate, "corners", given | {"across": "45 in", "down": "30 in"}, in_this_process
    )
    [a, b] = map_of(calibration).to_mm(
        [complex(*p) for p in drawn.to_px(np.array([(20, 8), (44, 30)]) * SQUARE_MM)]
    )
    assert abs(b - a) == pytest.approx(np.hypot(24, 22) * SQUARE_MM, rel=1e-6)
    bar = {
        "x1": corners[0][0],
        "y1": corners[0][1],
        "x2": corners[1][0],
        "y2": corners[1][1],
        "real": "45 in",
    }
    second = calibrate(maker, plate, "bar", bar, in_this_process)
    assert (second.number, plate.scan.calibrations.count()) == (2, 2)
    calibration.refresh_from_db()
    assert calibration.given["lengths"] == {"across": "45 in", "down": "30 in"}


def test_corners_out_of_turn_lose_nothing_typed(maker, plate, in_this_process):
    send(maker, plate, as_file(drawn_plate(1).picture), in_this_process)
    given = dict(
        zip(["x1", "y1", "x2", "y2", "x3", "y3", "x4", "y4"], [0, 0, 900, 900, 900, 0, 0, 900], strict=True)
    )
    answer = maker.post(
        reverse("scan-calibrate", args=[plate.pk, "corners"]), given | {"across": "9 in", "down": "9 in"}
    )
    assert "in turn" in answer.content.decode()
    assert 'value="9 in"' in answer.content.decode()


@pytest.mark.parametrize(
    ("kind", "mode", "given"),
    [("TIFF", "I;16", {}), ("PNG", "I;16", {}), ("PNG", "RGBA", {}), ("WEBP", "RGB", {}), ("JPEG", "L", {})],
)
def test_scans_of_every_kind_are_cut(maker, plate, in_this_process, kind, mode, given):
    scan = send(maker, plate, as_file(Image.new(mode, (700, 600)), kind, **given), in_this_process)
    assert (scan.work.state, scan.size) == (Work.State.DONE, (700, 600))


def test_a_scan_is_turned_upright(maker, plate, in_this_process):
    exif = Image.Exif()
    exif[0x0112] = 6
    file = as_file(Image.new("RGB", (700, 400)), "JPEG", exif=exif)
    assert send(maker, plate, file, in_this_process).size == (400, 700)


def test_a_file_cut_short_is_named_and_nothing_is_served(maker, plate, in_this_process):
    octets = as_file(drawn_plate(1).picture, "JPEG").read()
    scan = send(maker, plate, SimpleUploadedFile("plate.jpg", octets[: len(octets) // 2]), in_this_process)
    assert scan.work.state == Work.State.FAILED
    assert "not a whole" in maker.get(scan.get_absolute_url()).content.decode()


def test_what_is_no_picture_is_refused_at_the_door(maker, plate):
    answer = maker.post(
        reverse("scan-add", args=[plate.pk]), {"file": SimpleUploadedFile("plate.jpg", b"not a picture")}
    )
    assert "not a whole JPEG" in answer.content.decode()
    assert not PlateScan.objects.exists()


def test_a_deleted_scan_takes_its_files_when_the_bin_is_emptied(maker, plate, in_this_process):
    scan = send(maker, plate, as_file(Image.new("L", (700, 600))), in_this_process)
    assert names_in(scan.folder) == [scan.tiles, scan.original]
    with in_this_process(execute=True):
        maker.post(reverse("scan-delete", args=[plate.pk]))
    assert names_in(scan.folder) == [scan.tiles, scan.original]
    assert not PlateScan.objects.exists()
    with in_this_process(execute=True):
        forget_deleted(deleted=DeletedRow.objects.get())
    assert names_in(scan.folder) == []
