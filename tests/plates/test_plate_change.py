import io

import pytest
from PIL import Image

from catalogue.plates.loading import scale_of
from catalogue.plates.models.plate import Plate
from catalogue.workroom.files import is_there
from tests.makers.rows import make_bodice_plate, make_reference

TYPED = {
    "title": "Figure 3",
    "kind": "diagram",
    "scale_kind": "ratio",
    "ratio": "1:8",
    "read_from": "book",
    "allowance": "none",
    "rule_um": "1/32 in",
    "drawing_um": "1/16 in",
}

DRAFT = {"kind": "draft", "drawn_for_line": "bust", "drawn_for_half": "on", "drawn_for_um": "18"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def address(people) -> str:
    return f"/references/{make_reference(people.workroom).pk}/plates/add/"


@pytest.mark.parametrize(
    ("scale", "along", "across", "relative_doubt"),
    [
        ({"scale_kind": "ratio", "ratio": "1:4"}, 4, 4, 0.005),
        ({"scale_kind": "words", "page_um": "1 in", "real_um": "8 in", "read_from": "copy"}, 8, 8, 0.015),
        ({"scale_kind": "grid", "page_um": "1/4 in", "real_um": "1 in"}, 4, 4, 0.005),
        # Paper stretched across by a tenth: what lies across it is enlarged that much less.
        (
            {"scale_kind": "grid", "page_um": "10 cm", "real_um": "80 cm", "across_page_um": "11 cm"},
            8,
            80 / 11,
            0.005,
        ),
        # A bar read at both ends with a 1/32 in rule: d/√6 (JCGM 100:2008, 4.3.7), of 100 mm.
        ({"scale_kind": "bar", "page_um": "100 mm", "real_um": "1 m"}, 10, 10, 0.79375 / 6**0.5 / 100),
        # Figures are what they say, whatever the paper did.
        ({"scale_kind": "figures", "read_from": "copy"}, 1, 1, 0),
    ],
)
def test_a_scale_is_read_however_the_plate_gives_it(maker, address, scale, along, across, relative_doubt):
    maker.post(address, TYPED | scale)
    found = scale_of(Plate.objects.get())
    assert (found.along, found.across) == pytest.approx((along, across))
    assert found.relative_doubt == pytest.approx(relative_doubt)


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"ratio": "1:0"}, "ratio"),
        ({"ratio": ""}, "ratio"),
        ({"scale_kind": "words", "page_um": "1 in"}, "real_um"),
        ({"scale_kind": "bar", "page_um": "0", "real_um": "1 in"}, "page_um"),
        ({"allowance": "included"}, "allowance_um"),
        ({"rule_um": "0 in"}, "rule_um"),
        ({"across_page_um": "0"}, "across_page_um"),
        (DRAFT | {"drawn_for_um": ""}, "drawn_for_um"),
        (DRAFT | {"drawn_for_um": "0 in"}, "drawn_for_um"),
        (DRAFT | {"drawn_for_um": "17-18 in"}, "drawn_for_um"),
        (DRAFT | {"drawn_for_line": ""}, "drawn_for_line"),
        (DRAFT | {"drawn_for_line": "height"}, "drawn_for_half"),
    ],
)
def test_what_a_plate_needs_is_asked_for(maker, address, wrong, field):
    answer = maker.post(address, TYPED | wrong)
    assert list(answer.context["form"].errors) == [field]
    assert "“”" not in answer.content.decode()
    assert not Plate.objects.exists()


def test_a_page_stretched_one_way_is_said_with_its_scale(maker, address):
    grid = {"scale_kind": "grid", "page_um": "10 cm", "real_um": "80 cm", "across_page_um": "11 cm"}
    page = maker.post(address, TYPED | grid, follow=True).content.decode()
    assert "scale 10 cm (11 cm across) on the page is 80 cm" in page


def test_a_proportional_draft_says_what_it_was_drawn_for(maker, address):
    page = maker.post(address, TYPED | DRAFT | {"scale_kind": "figures"}, follow=True).content.decode()
    assert "figures printed at full size, a proportional draft for half bust or chest 18 in" in page
    whole = {"drawn_for_line": "height", "drawn_for_half": "", "drawn_for_um": "66 in"}
    maker.post(f"/plates/{Plate.objects.get().pk}/change/", TYPED | DRAFT | whole)
    assert Plate.objects.get().drawn_in_words == "scale 1:8, a proportional draft for height 66 in"


def test_a_draft_asks_for_its_measure_with_all_that_was_typed_still_there(maker, address):
    page = maker.post(address, TYPED | DRAFT | {"drawn_for_um": "half"}).content.decode()
    assert 'value="half"' in page
    assert '<option value="draft" selected>' in page
    assert "Figure 3" in page


def test_what_is_not_asked_of_a_diagram_is_neither_a_fault_nor_kept(maker, address):
    maker.post(address, TYPED | DRAFT | {"kind": "diagram", "drawn_for_um": "half"})
    plate = Plate.objects.get()
    assert (plate.drawn_for_line, plate.drawn_for_um, plate.drawn_for_text) == ("", None, "")


def test_a_picture_sent_with_the_plate_becomes_a_photograph_of_the_garment(maker, address, data_folder):
    file = io.BytesIO()
    Image.new("RGB", (40, 30), "white").save(file, "PNG")
    file.seek(0)
    file.name = "page.png"
    maker.post(address, TYPED | {"picture_file": file})
    plate = Plate.objects.get()
    assert plate.picture.view == "plate"
    assert plate.picture.reference == plate.reference
    assert is_there(plate.picture.file(320))


def test_a_file_that_is_no_picture_is_refused_with_a_sentence(maker, address):
    file = io.BytesIO(b"%PDF-1.7")
    file.name = "page.pdf"
    answer = maker.post(address, TYPED | {"picture_file": file})
    assert "not a whole JPEG" in str(answer.context["form"].errors["picture_file"])
    assert "Figure 3" in answer.content.decode()


def test_settling_the_allowance_changes_the_girth(maker, people):
    plate = make_bodice_plate(people.workroom)
    maker.post(f"/plates/{plate.pk}/change/", TYPED | {"allowance": "included", "allowance_um": "1/4"})
    # Two edges of the front and one of the back, each twice round: 6 × 1/4 in less than 34 in.
    assert "32 1/2 in" in maker.get(plate.get_absolute_url()).content.decode()


def test_deleting_a_plate_says_what_goes_with_it(maker, people):
    plate = make_bodice_plate(people.workroom)
    page = maker.get(f"/plates/{plate.pk}/delete/").content.decode()
    assert "4 readings" in page
    assert maker.post(f"/plates/{plate.pk}/delete/")["Location"] == plate.reference.get_absolute_url()
    assert not Plate.objects.exists()
