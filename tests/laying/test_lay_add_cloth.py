"""The cloth that a lay is asked for: the width in the materials, the repeat that it is matched to."""

import pytest

from catalogue.workroom.work.engine import do_in_turn
from fitting.laying.loading.orders import lay_request
from tests.makers.rows import make_garment, make_outfit, make_piece, make_plate, make_reference, um

CLOTH = {
    "width_1": "45 in", "direction": "two-way", "folded": "open", "unit": "1/8 yd", "allowance": "1/2 in",
    "seconds": "1", "cut front": "2", "width of front": "10 in", "length of front": "20 in",
}  # fmt: skip


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def garment(people):
    plate = make_plate(make_reference(people.workroom))
    make_piece(plate, "front", {"waist": "1 1/4 in", "nape to waist": "2 1/2 in"})
    return make_garment(make_outfit(people.workroom), plate=plate)


def ask(client, garment, **typed):
    return client.post(f"/garments/{garment.pk}/lays/add/", CLOTH | typed)


def test_the_width_is_that_of_the_garments_own_cloth_in_the_materials(maker, garment):
    def width_1() -> str:
        return maker.get(f"/garments/{garment.pk}/lays/add/").context["form"].initial["width_1"]

    assert width_1() == "45 in"
    outfit = garment.outfit
    outfit.materials.create(name="for all", width_um=um("60 in"), width_text="60 in")
    outfit.materials.create(
        name="lining", kind="lining", garment=garment, width_um=um("27 in"), width_text="27 in"
    )
    assert width_1() == "45 in"
    outfit.materials.create(name="silk", garment=garment, width_um=um("30 in"), width_text="30 in")
    assert width_1() == "30 in"


def test_the_width_of_its_own_cloth_comes_before_those_typed_last(maker, garment):
    ask(maker, garment, width_2="12 in")
    garment.outfit.materials.create(name="silk", garment=garment, width_um=um("30 in"), width_text="30 in")
    initial = maker.get(f"/garments/{garment.pk}/lays/add/").context["form"].initial
    assert [initial[name] for name in ("width_1", "width_2", "width_3")] == ["30 in", "45 in", "12 in"]


def test_a_repeat_is_asked_for_along_across_and_dropped(maker, garment):
    typed = {"repeat": "9 in", "repeat_across": "12 in", "drop": "4 1/2 in", "one_more": "on"}
    lay_page = ask(maker, garment, **typed)["Location"]
    lay = garment.lays.get()
    (repeat,) = {cloth.repeat for cloth in lay_request(lay.inputs).cloths}
    lengths_mm = (repeat.along_mm, repeat.across_mm, repeat.drop_mm)
    assert lengths_mm == pytest.approx((9 * 25.4, 12 * 25.4, 4.5 * 25.4))
    assert repeat.one_more
    do_in_turn([lay.work.pk])
    page = maker.get(lay_page).content.decode()
    assert "Matched to the repeat: front at its lowest point." in page
    assert "at one place of the repeat: 9 in along and 12 in across, dropped by 4 1/2 in." in page
    assert "lay-match" in page


def test_a_drop_without_a_repeat_across_stands_beside_its_box(maker, garment):
    answer = ask(maker, garment, repeat="9 in", drop="4 in")
    assert "in each repeat across" in answer.context["form"].errors["drop"][0]
