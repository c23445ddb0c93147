"""Outlines out of the program and in again, with nothing lost, and nothing kept before it was asked."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from svgpathtools import parse_path

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.following import SAME_MM
from catalogue.tracing.models import TracedLevel, TracedPiece, TracedReading
from tests.makers.rows import make_bodice_plate, make_plate, make_reference, make_scan, make_traced
from tests.makers.traced_bodice import make_traced_bodice

SHEET = '<svg xmlns="http://www.w3.org/2000/svg" width="{}" viewBox="0 0 300 400">{}</svg>'
RECTANGLE = '<rect x="50" y="50" width="100" height="200"/>'


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def plate(people, data_folder):
    return make_bodice_plate(people.workroom)


def svg(shapes: str = RECTANGLE, width: str = "300mm") -> str:
    return SHEET.format(width, f"<g><title>front</title>{shapes}</g>")


def exported(client, plate: Plate) -> str:
    return client.get(reverse("outlines-svg", args=[plate.pk])).content.decode()


def look(client, plate: Plate, text: str | bytes, **given):
    data = text.encode() if isinstance(text, str) else text
    file = SimpleUploadedFile("outlines.svg", data, content_type="image/svg+xml")
    return client.post(
        reverse("outlines-import", args=[plate.pk]), {"file": file, "unit": "said", "size": "full", **given}
    )


def take(client, plate: Plate, text: str, **changed):
    """Look, then send the choice as the page proposes it, but for what is `changed`."""
    page = look(client, plate, text)
    choice = page.context["choice"]
    given = {box.html_name: box.value() for box in choice if box.value() not in (None, False)}
    given |= {"text": text, "unit": "said", "size": "full", "take": "yes", **changed}
    return client.post(reverse("outlines-import", args=[plate.pk]), given)


def paths(text: str) -> list[str]:
    return [
        line.partition(' d="')[2].partition('"')[0] for line in text.splitlines() if "data-points" in line
    ]


def test_what_is_exported_comes_back_as_the_same_drawing(maker, people, data_folder):
    plate = make_traced_bodice(people.workroom).plate
    before = exported(maker, plate)
    other = make_plate(make_reference(people.workroom))
    answer = take(maker, other, before)
    assert answer.status_code == 302
    after = exported(maker, other)
    assert len(paths(before)) == len(plate.pieces.all())
    for was, now in zip(paths(before), paths(after), strict=True):
        was, now = parse_path(was), parse_path(now)
        assert len(was) == len(now)
        assert (
            max(abs(a - b) for s, t in zip(was, now, strict=True) for a, b in zip(s, t, strict=True))
            < SAME_MM
        )
        assert now.length() == pytest.approx(was.length(), abs=0.001)
    assert [line for line in after.splitlines() if "data-" in line] == [
        line for line in before.splitlines() if "data-" in line
    ]


def test_nothing_is_kept_while_one_looks(maker, plate):
    page = look(maker, plate, svg()).content.decode()
    assert "Nothing is kept yet" in page
    assert "1 front" in page
    assert not TracedPiece.objects.exists()
    assert not hasattr(Plate.objects.get(pk=plate.pk), "scan")


def test_a_plate_without_a_scan_gets_a_sheet_of_its_own(maker, plate):
    take(maker, plate, svg())
    piece = Piece.objects.get(name="front")
    assert plate.pieces.count() == 2  # the file's “front” is the plate's
    calibration = plate.scan.calibrations.get()
    assert (calibration.way, calibration.relative_doubt) == ("drawn", 0.005)  # the plate was read in a book
    assert len(piece.traced.nodes) == 4
    page = maker.get(reverse("scan-detail", args=[plate.pk])).content.decode()
    assert "M50.0000 50.0000 L150.0000 50.0000" in page
    assert "Calibrate again" not in page
    tile = maker.get(reverse("calibration-tile", args=[calibration.pk, 0, 0, 0]))
    assert tile.status_code == 200


def test_onto_a_scan_the_outlines_come_at_their_millimetres(maker, plate):
    make_scan(plate)
    take(maker, plate, svg())
    first = TracedPiece.objects.get().nodes[0]
    assert (first["x"], first["y"]) == (100, 100)  # a pixel is half a millimetre


def test_a_scan_that_is_not_calibrated_comes_first(maker, plate):
    plate.scan = make_scan(plate)[0]
    plate.scan.calibrations.all().delete()
    answer = look(maker, plate, svg())
    assert answer.url == reverse("scan-detail", args=[plate.pk])


def test_an_outline_may_become_a_new_piece_take_the_place_of_one_or_be_left_out(maker, plate):
    make_scan(plate)
    front, back = plate.pieces.all()
    make_traced(back)
    text = svg(RECTANGLE + '<path d="M0 0H30V40z"/><path d="M200 0h30v40z"><title>Back</title></path>')
    page = look(maker, plate, text).content.decode()
    assert "the outline of “front”<" in page
    assert "the outline of “back”, in place of the one traced" in page
    take(maker, plate, text, to0=str(front.pk), to1="new", name1="gusset")
    assert [len(piece.traced.nodes) for piece in plate.pieces.all()] == [4, 3, 3]
    assert plate.pieces.last().name == "gusset"
    take(maker, plate, text, to0="new", name0="facing", to1="", to2="")
    assert [piece.name for piece in plate.pieces.all()] == ["front", "back", "gusset", "facing"]


def test_two_outlines_for_one_piece_keep_nothing(maker, plate):
    front = plate.pieces.first()
    text = svg(RECTANGLE + '<rect x="200" y="0" width="50" height="60"/>')
    page = take(maker, plate, text, to0=str(front.pk), to1=str(front.pk))
    assert "“front” is given two outlines." in page.content.decode()
    assert not TracedPiece.objects.exists()


def test_a_line_that_crosses_itself_is_named_by_its_points_and_is_not_taken(maker, plate):
    text = svg('<polygon points="0,0 100,100 100,0 0,150"/>')
    page = look(maker, plate, text)
    assert "the side from point 1 to 2 meets the side from point 3 to 4" in page.content.decode()
    page = take(maker, plate, text, to0="new", name0="front")
    assert "The outline crosses itself" in page.content.decode()
    assert not TracedPiece.objects.exists()


def test_what_was_traced_meanwhile_is_not_written_over(maker, plate):
    make_scan(plate)
    stamp = look(maker, plate, svg()).context["choice"]["as_of"].value()
    make_traced(plate.pieces.first())
    page = take(maker, plate, svg(), as_of=stamp)
    assert "on another screen" in page.content.decode()
    assert TracedPiece.objects.get().nodes[1]["edge"] == "side seam"


def test_levels_come_once_and_give_readings_that_leave_those_by_hand(maker, plate):
    text = svg(RECTANGLE).replace("</svg>", '<path data-level="waist" d="M0 100H300"/></svg>')
    take(maker, plate, text)
    take(maker, plate, text)
    assert TracedLevel.objects.count() == 1
    assert TracedReading.objects.get().reading_um == 12_500  # 100 mm at 1:8
    assert plate.pieces.first().by_line["waist"].reading_text == "3/4 in"


@pytest.mark.parametrize(
    ("width", "unit", "size", "across_mm"),
    [
        ("300mm", "said", "full", 100),
        ("30cm", "said", "full", 100),
        ("3in", "said", "full", 25.4),
        ("300", "said", "full", 100 * 25.4 / 96),  # CSS: a px is 1/96 in
        ("100%", "mm", "full", 100),
        ("300mm", "in", "full", 2540),
        ("300mm", "said", "scale", 800),
    ],
)
def test_the_size_is_the_files_or_what_one_says_it_is(maker, plate, width, unit, size, across_mm):
    form = look(maker, plate, svg(width=width), unit=unit, size=size).context["form"]
    nodes = form.drawing.pieces[0].shape.outline.nodes
    assert abs(nodes[1].at - nodes[0].at) == pytest.approx(across_mm)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "The submitted file is empty"),
        (b"\xff\xfe\x00", "not text in UTF-8"),
        ("<svg", "not whole XML"),
        ("<html/>", "no SVG drawing"),
        ('<!DOCTYPE svg [<!ENTITY a "aaaa">]><svg>&a;</svg>', "has a DOCTYPE"),
        ('<!DOCTYPE svg SYSTEM "file:///etc/passwd"><svg/>', "has a DOCTYPE"),
        ("<svg>" + "<g>" * 70 + "</g>" * 70 + "</svg>", "nests them too deep"),
        (svg(width="100%"), "does not say how large it is"),
        (svg('<line x1="1" x2="90"/>'), "no closed line"),
        (svg('<path id="sleeve" d="M0 0L5"/>'), "sleeve: This path could not be read."),
        (svg('<path d="M0 0L5 oops"/>'), "This path could not be read."),
        (svg('<rect width="50%" height="3"/>'), "This rect could not be read."),
        (svg('<g transform="wiggle(3)"/>'), "This g could not be read."),
        (svg(f'<path d="M0 0{"l1 1" * 6001}z"/>'), "more than 6,000 sides"),
        (svg(RECTANGLE * 61), "send 60 at most"),
        (svg().replace("0 0 300 400", "0 0 300 0"), "viewBox of the drawing has no size"),
        (svg().replace('width="300mm"', 'width="300mm" height="900mm"'), "stretched one way"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_reason(maker, plate, text, sentence):
    page = look(maker, plate, text)
    assert page.status_code == 200
    assert sentence in page.content.decode()


def test_every_fault_of_a_file_is_listed(maker, plate):
    page = look(maker, plate, svg('<path id="a" d="M1"/><path id="b" d="M1"/>')).content.decode()
    assert "a: This path" in page
    assert "b: This path" in page


def test_a_file_that_is_too_large_is_refused(maker, plate):
    assert "over 2 MB" in look(maker, plate, svg(RECTANGLE + " " * 2**21)).content.decode()


def test_what_is_no_piece_is_counted(maker, plate):
    shapes = RECTANGLE + '<use href="#x"/><path d="M0 0h90"/><circle r="3"/><g display="none"><rect/></g>'
    left_out = look(maker, plate, svg(shapes)).context["form"].drawing.left_out
    assert set(left_out.values()) == {1}
    assert len(left_out) == 3


def test_names_of_edges_go_where_the_points_were_changed_elsewhere(maker, plate):
    said = 'data-points="4" data-corners="0 1 2 3" data-edges="{&quot;0&quot;:&quot;neck&quot;}"'
    same, changed = (
        look(maker, plate, svg(f'<path {said} d="M0 0H90V90{way}z"/>')).context["form"].drawing.pieces[0]
        for way in ("H0", "H50V70")
    )
    assert same.shape.edges_mm() == {"neck": pytest.approx(360)}
    assert changed.shape.edges_mm() == {}
    assert "name its edges again" in changed.note


def test_what_lies_far_off_the_scan_is_not_kept(maker, plate):
    _, calibration = make_scan(plate)
    calibration.matrix = [[0.01, 0, 0], [0, 0.01, 0], [0, 0, 1]]
    calibration.save()
    page = take(maker, plate, svg('<rect x="60000" y="0" width="900" height="900"/>'))
    assert "too far off the scan" in page.content.decode()
    assert not TracedPiece.objects.exists()
