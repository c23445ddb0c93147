"""The pages of a calibration by many known lengths: typed or pressed, with what each is missed by."""

import pytest
from django.urls import reverse

from catalogue.workroom.work.models import Work
from tests.makers.rows import make_bodice_plate, make_scan


@pytest.fixture
def plate(people):
    plate = make_bodice_plate(people.workroom)
    make_scan(plate)
    return plate


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def boxes(*lengths) -> dict[str, str]:
    """Each: its two ends, and its text."""
    typed = {}
    for number, (start, end, text) in enumerate(lengths, start=1):
        for at, (x, y) in ((2 * number - 1, start), (2 * number, end)):
            typed |= {f"x{at}": x, f"y{at}": y}
        typed[f"length{number}"] = text
    return typed


# Half a millimetre to a pixel: 508 px are 10 in.
ACROSS, ALONG = ((100, 100), (608, 100), "10 in"), ((100, 100), (100, 608), "10 in")
LONGER, LOWER = ((100, 700), (1116, 700), "20 in"), ((400, 100), (400, 862), "15 in")
MISPRINTED = ((700, 100), (700, 608), "11 in")  # as drawn 10 in


def calibrated(maker, plate, *lengths, **more):
    address = reverse("scan-calibrate", args=[plate.pk, "lengths"])
    assert maker.post(address, boxes(*lengths) | more).status_code == 302
    return scan_page(maker, plate)


def scan_page(maker, plate) -> str:
    Work.objects.update(state=Work.State.DONE)
    return maker.get(reverse("scan-detail", args=[plate.pk])).content.decode()


def test_from_two_lengths_the_doubt_cannot_be_known(maker, plate):
    page = calibrated(maker, plate, ACROSS, ALONG)
    assert "cannot be known from two lengths; taken as 0.71 %" in page  # 2.54 ÷ √(2 × 254²)
    assert "Give a third" in page


def test_every_misfit_is_shown_and_the_one_that_is_wrong_marked(maker, plate):
    page = calibrated(maker, plate, ACROSS, ALONG, LONGER, LOWER, MISPRINTED, name5="Z to D")
    assert "cannot be known" not in page
    [row] = [row for row in page.split("<tr>") if "The others agree without this one" in row]
    assert "Z to D" in row


def test_to_calibrate_again_begins_with_the_lengths_of_before_and_may_leave_one_out(maker, plate):
    calibrated(maker, plate, ACROSS, ALONG, LONGER, LOWER, MISPRINTED)
    address = reverse("scan-calibrate", args=[plate.pk, "lengths"])
    assert 'value="11 in"' in maker.get(address).content.decode()
    page = calibrated(maker, plate, ACROSS, ALONG, LONGER, LOWER, MISPRINTED, left_out5="on")
    assert "The others agree" not in page
    newest = plate.scan.calibrations.first()
    assert sorted(newest.given["lengths"].items()) == [
        ("1", "10 in"),
        ("2", "10 in"),
        ("3", "20 in"),
        ("4", "15 in"),
    ]
    assert newest.matrix[0][0] == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"length1": "10 in"}, "Give both its ends"),
        ({"x1": "1", "y1": "2", "x2": "300", "y2": "4"}, "Say what it measures"),
        (boxes(ACROSS), "Give 2 to 12 lengths"),
        (boxes(ACROSS, ALONG) | {"length2": "ten"}, "length2"),
    ],
)
def test_a_fault_is_named_and_loses_nothing(maker, plate, typed, sentence):
    answer = maker.post(reverse("scan-calibrate", args=[plate.pk, "lengths"]), typed)
    assert sentence in answer.content.decode()
    assert plate.scan.calibrations.count() == 1
    for value in typed.values():
        assert f'value="{value}"' in answer.content.decode()


def test_one_length_along_and_one_across_say_so_too(maker, plate):
    given = {"x1": 100, "y1": 100, "x2": 100, "y2": 608, "x3": 100, "y3": 100, "x4": 608, "y4": 100}
    address = reverse("scan-calibrate", args=[plate.pk, "axes"])
    assert maker.post(address, given | {"down": "10 in", "across": "10 in"}).status_code == 302
    page = scan_page(maker, plate)
    assert "cannot be known from two lengths" in page
