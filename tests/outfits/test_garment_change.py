"""One page holds a garment, its references and its ease. Asking for another row saves and loses nothing."""

import pytest

from fitting.outfits.models.garment import Ease, GarmentReference
from tests.makers.rows import (
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_reference,
    make_wearer,
)

INCH_UM = 25_400


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    return make_garment(make_outfit(people.workroom), plate=make_bodice_plate(people.workroom))


def boxes_of(page) -> dict:
    """Everything that a browser would send back as it stands."""
    parts = page.context["parts"]
    every_form = [page.context["form"], *parts.references, *parts.eases]
    managed = [parts.references.management_form, parts.eases.management_form]
    boxes = {}
    for form in (*every_form, *managed):
        for box in form:
            value = box.value()
            if value is not None and value is not False:
                boxes[box.html_name] = "on" if value is True else value
    return boxes


def change(maker, garment, **typed):
    path = f"/garments/{garment.pk}/change/"
    return maker.post(path, boxes_of(maker.get(path)) | typed)


def test_a_row_is_offered_for_each_line_that_was_read(maker, bodice):
    Ease.objects.create(garment=bodice, line="waist", ease_um=0, ease_text="0 in")
    eases = maker.get(f"/garments/{bodice.pk}/change/").context["parts"].eases
    assert [form["line"].value() for form in eases] == ["waist", "bust"]


def test_rows_that_are_left_empty_are_not_kept(maker, bodice):
    response = change(maker, bodice, name="blue bodice")
    assert response.status_code == 302
    bodice.refresh_from_db()
    assert bodice.name == "blue bodice"
    assert not bodice.eases.exists()


def test_ease_is_kept_as_typed_with_its_sign(maker, bodice):
    change(maker, bodice, **{"eases-0-ease_um": "-1 1/2", "eases-1-fit": "gathered"})
    bust, waist = bodice.eases.all()
    assert (bust.line, bust.ease_um, bust.ease_text) == ("bust", -38_100, "-1 1/2 in")
    assert (waist.line, waist.ease_um, waist.fit) == ("waist", 0, "gathered")


def test_a_faulty_box_is_shown_again_with_everything_else(maker, bodice):
    page = change(
        maker, bodice, name="blue bodice", **{"eases-0-ease_um": "1-2 in", "eases-1-ease_um": "1 in"}
    )
    text = page.content.decode()
    assert "“1-2 in” is a range: type one length." in text.replace("&#x27;", "'")
    assert 'value="blue bodice"' in text
    assert 'value="1 in"' in text
    assert not bodice.eases.exists()


def test_asking_for_a_row_saves_nothing_and_loses_nothing(maker, bodice):
    page = change(maker, bodice, name="blue bodice", more_eases="", **{"eases-0-ease_um": "1 in"})
    assert len(page.context["parts"].eases.forms) == 3
    assert page.context["form"]["name"].value() == "blue bodice"
    assert page.context["parts"].eases[0]["ease_um"].value() == "1 in"
    bodice.refresh_from_db()
    assert bodice.name == "bodice"


def test_published_ease_fills_empty_boxes_only_and_names_its_source(maker, bodice):
    key = next(one.key for one in maker.get(f"/garments/{bodice.pk}/change/").context["parts"].presets)
    assert key.startswith("any, Robinson")
    page = change(maker, bodice, preset=key)
    hip = page.context["parts"].eases[-1]
    assert (hip["line"].value(), hip["ease_um"].value()) == ("hip", "2 in")
    assert hip["source"].value().startswith("2 in to 2 3/4 in: Robinson")
    typed = {
        "eases-2-line": "hip",
        "eases-2-fit": "fitted",
        "eases-2-ease_um": "1 in",
        "eases-TOTAL_FORMS": "3",
    }
    page = change(maker, bodice, preset=key, **typed)
    assert page.context["parts"].eases[2]["ease_um"].value() == "1 in"
    assert not bodice.eases.exists()


def test_a_garment_draws_on_that_of_its_plate_where_nobody_said_another(maker, bodice, people):
    plate = bodice.plate
    change(maker, bodice, plate="")
    assert not bodice.references.exists()
    change(maker, bodice, plate=plate.pk)
    assert bodice.references.get().reference == plate.reference
    other = make_reference(people.workroom, name="other")
    GarmentReference.objects.update(reference=other)
    for chosen in ("", plate.pk):
        change(maker, bodice, plate=chosen)
    assert bodice.references.get().reference == other


def test_a_garment_begun_with_a_plate_draws_on_its_garment(maker, bodice):
    maker.post(
        f"/outfits/{bodice.outfit.pk}/garments/add/",
        {"name": "jacket", "stage": "studied", "purpose": "this garment", "layers": "1", "gather_ratio": "1"}
        | {"plate": bodice.plate.pk},
    )
    jacket = bodice.outfit.garments.get(name="jacket")
    assert jacket.references.get().reference == bodice.plate.reference


def test_every_preset_can_be_asked_for_also_one_that_gives_a_least_only(maker, bodice):
    page = maker.get(f"/garments/{bodice.pk}/change/")
    assert "thigh 1 in or more" in page.content.decode()
    for preset in page.context["parts"].presets:
        eases = change(maker, bodice, preset=preset.key).context["parts"].eases
        filled = {row["line"].value(): row["source"].value() for row in eases}
        assert {row.level for row in preset.rows} <= set(filled)
    assert filled["thigh"].startswith("1 in or more: Robinson")


@pytest.mark.parametrize("rows", ["", "many", "9" * 25, "101"])
def test_a_page_that_miscounts_its_rows_is_given_back(maker, bodice, rows):
    for button in ({}, {"more_eases": ""}, {"preset": "any"}):
        page = change(maker, bodice, **{"eases-TOTAL_FORMS": rows}, **button)
        assert page.status_code == 200
        assert len(page.context["parts"].eases.forms) <= 100


def test_no_modern_table_is_offered_over_stays(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="stays", is_boned=True)
    presets = maker.get(f"/garments/{make_garment(outfit).pk}/change/").context["parts"].presets
    assert {row.source for preset in presets for row in preset.rows} == {"common practice, no source"}


def test_references_are_linked_and_taken_away(maker, bodice, people):
    reference = make_reference(people.workroom, name="grey jacket")
    change(maker, bodice, **{"references-0-reference": reference.pk, "references-0-what_for": "cut"})
    link = bodice.references.get()
    assert (link.reference, link.what_for) == (reference, "cut")
    change(maker, bodice, **{"references-0-DELETE": "on"})
    assert not GarmentReference.objects.exists()


def test_only_the_workrooms_plates_and_the_wearers_measures_can_be_chosen(maker, bodice, people):
    elsewhere = people.stranger.memberships.get().workroom
    page = change(
        maker,
        bodice,
        plate=make_bodice_plate(elsewhere).pk,
        measures=make_measures(make_wearer(people.workroom)).pk,
        **{"references-0-reference": make_reference(elsewhere).pk},
    )
    assert set(page.context["form"].errors) == {"plate", "measures"}
    assert page.context["parts"].references.errors[0]
