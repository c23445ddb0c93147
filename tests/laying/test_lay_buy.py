"""What a lay says to buy, written into the materials: into the right line, with what stood there before."""

import pytest
from django.contrib.messages import get_messages

from catalogue.workroom.reader.codec import to_json
from fitting.outfits.models.material import Material
from tests.makers.kept_work import make_lay, make_request
from tests.makers.rows import make_garment, make_outfit, um

NARROW, WIDE = (
    {
        "answer": {
            "length_mm": mm - 20,
            "length_to_buy_mm": mm,
            "density": 0.8,
            "placements": [],
            "piecing": [],
        },
        "width_mm": width_mm,
        "usable_width_mm": width_mm,
        "to_buy": to_buy,
        "drawings": {"in": "<svg/>", "cm": "<svg/>"},
    }
    for mm, width_mm, to_buy in ((2743.2, 914.4, "3 yd"), (1714.5, 1371.6, "1 7/8 yd"))
)


@pytest.fixture
def lay(people):
    garment = make_garment(make_outfit(people.workroom))
    inputs = to_json(make_request("36 in", "54 in"))
    return make_lay(garment, inputs=inputs, results=[NARROW, WIDE])


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def make_material(lay, **given) -> Material:
    return Material.objects.create(**{"outfit": lay.garment.outfit, "name": "linen", **given})


def test_a_line_of_its_garment_is_offered_first_with_what_it_needs_now(maker, lay):
    make_material(lay, needed_um=um("4 yd"), needed_text="4 yd")
    own = make_material(lay, name="twill", garment=lay.garment, width_um=um("34 in"), width_text="34 in")
    make_material(lay, name="buttons", kind="notions", needed_count=6)
    make_material(lay, name="silk", garment=make_garment(lay.garment.outfit))
    form = maker.get(lay.get_absolute_url()).context["form"]
    assert form.initial == {"width": "1", "material": str(own.pk)}
    assert [label for _, label in form.fields["material"].choices] == [
        f"twill, 34 in wide for {lay.garment}: nothing needed yet",
        "linen: needed now 4 yd",
        "a new line",
    ]


def test_one_click_writes_what_is_bought_and_says_what_stood_there_before(maker, lay):
    material = make_material(lay, needed_um=um("4 yd"), needed_text="4 yd")
    answer = maker.post(f"/lays/{lay.pk}/buy/", {"width": "1", "material": str(material.pk)})
    material.refresh_from_db()
    assert (material.needed_text, material.needed_um) == ("1 7/8 yd", um("1 7/8 yd"))
    # What its width was nobody had said.
    assert (material.width_text, material.width_um) == ("54 in", um("54 in"))
    assert [str(one) for one in get_messages(answer.wsgi_request)] == [
        "“linen” now needs 1 7/8 yd; before, it was 4 yd."
    ]
    shopping = maker.get(f"/outfits/{lay.garment.outfit_id}/shopping/").content.decode()
    assert "1 7/8 yd" in shopping


def test_no_length_is_written_to_cloth_of_another_width(maker, lay):
    material = make_material(
        lay, width_um=um("24 in"), width_text="24 in", needed_um=um("5 yd"), needed_text="5 yd"
    )
    answer = maker.post(f"/lays/{lay.pk}/buy/", {"width": "0", "material": str(material.pk)})
    material.refresh_from_db()
    assert (material.needed_text, material.width_text) == ("5 yd", "24 in")
    (said,) = answer.context["form"].errors["material"]
    assert "24 in wide, and this lay is on 36 in" in said


def test_the_width_that_the_garments_own_cloth_has_is_offered_first(maker, lay):
    make_material(lay, garment=lay.garment, width_um=um("36 in"), width_text="36 in")
    # 54 in would be the least cloth, but what stands there is 36 in.
    assert maker.get(lay.get_absolute_url()).context["form"].initial["width"] == "0"


@pytest.mark.parametrize(("cloth", "kind"), [("outer", "cloth"), ("lining", "lining"), ("facing", "cloth")])
def test_a_new_line_is_of_the_kind_of_its_cloth(maker, lay, cloth, kind):
    lay.cloth = cloth
    lay.save()
    maker.post(f"/lays/{lay.pk}/buy/", {"width": "0", "material": "new"})
    material = lay.garment.outfit.materials.get()
    assert (material.kind, material.garment, material.needed_text) == (kind, lay.garment, "3 yd")
    assert material.name == f"{cloth.capitalize()} cloth for {lay.garment}"


def test_a_line_of_another_outfit_is_none_to_choose(maker, lay):
    other = Material.objects.create(outfit=make_outfit(lay.garment.outfit.workroom), name="theirs")
    answer = maker.post(f"/lays/{lay.pk}/buy/", {"width": "0", "material": str(other.pk)})
    assert set(answer.context["form"].errors) == {"material"}
    other.refresh_from_db()
    assert other.needed_text == ""
