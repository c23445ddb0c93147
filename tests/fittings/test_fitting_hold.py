"""Three taps keep an observation; a phone that sends it twice keeps it once; paper says the same."""

import io
from uuid import uuid4

import pytest
from PIL import Image

from catalogue.workroom.files import open_file
from fitting.fittings.models.session import Observation, ObservationPhoto
from tests.makers.fittings import jpeg, make_fitting
from tests.makers.rows import NOON, make_garment, make_outfit, make_wearer, um

JSON = {"Accept": "application/json"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def fitting(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    make_garment(outfit, name="stays", stage="toile")
    make_garment(outfit, name="gown", stage="toile")
    return make_fitting(outfit)


def tapped(fitting, **given) -> dict:
    garment = fitting.garments.get(name="stays")
    return {"garment": garment.pk, "place": "waist", "side": "", "seen": "let out|1/4 in", **given}


def hold(maker, fitting, headers=None, **given):
    return maker.post(f"/fittings/{fitting.pk}/hold/", tapped(fitting, **given), headers=headers or {})


@pytest.mark.parametrize(
    ("seen", "what", "amount"),
    [("let out|1/4 in", "let out", "1/4 in"), ("shorten|3 cm", "shorten", "3 cm"), ("gapes", "gapes", None)],
)
def test_garment_place_and_one_button_are_enough(maker, fitting, seen, what, amount):
    hold(maker, fitting, seen=seen)
    kept = Observation.objects.get()
    assert (kept.garment.name, kept.place, kept.what) == ("stays", "waist", what)
    assert kept.amount_um == (um(amount) if amount else None)


def test_the_page_offers_every_button_by_name(maker, fitting):
    page = maker.get(f"/fittings/{fitting.pk}/hold/").content.decode()
    assert 'value="take in|1/2 in" aria-label="take in 1/2 in"' in page


def test_in_centimetres_the_buttons_are_centimetres(maker, fitting, people):
    people.maker.system = "cm"
    people.maker.save()
    assert 'value="take in|0.5 cm"' in maker.get(f"/fittings/{fitting.pk}/hold/").content.decode()


def test_what_a_phone_sends_twice_is_kept_once_with_its_photographs(maker, fitting):
    key = str(uuid4())
    for _ in range(2):
        picture = io.BytesIO(jpeg())
        picture.name = "seen.jpg"
        answer = hold(maker, fitting, JSON, client_key=key, pictures=[picture])
        assert answer.json()["kept"] == key
    assert Observation.objects.count() == ObservationPhoto.objects.count() == 1


def test_the_same_key_at_another_fitting_is_another_observation(maker, fitting):
    key = str(uuid4())
    other = make_fitting(fitting.outfit)
    for one in (fitting, other):
        hold(maker, one, JSON, client_key=key)
    assert Observation.objects.count() == 2


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"place": ""}, "Tap where it was seen."),
        ({"seen": "boil"}, "Tap what was seen."),
        ({"seen": "let out|"}, "Say by how much."),
        ({"seen": "other", "other_what": "noted"}, "Write what was seen, or take a photograph of it."),
    ],
)
def test_what_is_missing_is_said_to_a_phone_as_to_a_page(maker, fitting, given, told):
    answer = hold(maker, fitting, JSON, **given)
    assert answer.status_code == 422
    assert told in answer.json()["faults"]
    assert told in hold(maker, fitting, **given).content.decode()
    assert not Observation.objects.exists()


def test_a_place_and_an_amount_of_ones_own(maker, fitting):
    hold(maker, fitting, seen="other", other_place="left strap", other_what="take in", other_amount="5/8 in")
    assert str(Observation.objects.get()) == "stays, left strap: take in 5/8 in"


def test_a_garment_that_is_not_fitted_is_refused(maker, fitting, people):
    stranger = make_garment(make_outfit(people.workroom), name="cloak")
    assert hold(maker, fitting, JSON, garment=stranger.pk).status_code == 422


def test_what_arrives_after_the_close_opens_the_fitting_again(maker, fitting):
    fitting.closed_at = NOON
    fitting.save()
    hold(maker, fitting, JSON)
    fitting.refresh_from_db()
    assert fitting.closed_at is None


def test_a_photograph_is_drawn_again_without_what_the_camera_wrote_into_it(maker, fitting):
    file = io.BytesIO()
    exif = Image.Exif()
    exif[0x010F] = "A camera of somebody"
    Image.new("RGB", (60, 40), "teal").save(file, "JPEG", exif=exif)
    file.seek(0)
    file.name = "seen.jpg"
    hold(maker, fitting, pictures=[file])
    photo = ObservationPhoto.objects.get()
    assert b"A camera of somebody" not in open_file(photo.file(2000)).read()
    address = f"/observations/photos/{photo.pk}/960/"
    assert maker.get(address)["Cache-Control"] == "private, no-store"


def test_a_file_that_is_no_picture_is_named_and_nothing_is_kept(maker, fitting):
    file = io.BytesIO(b"not a picture")
    file.name = "seen.jpg"
    answer = hold(maker, fitting, JSON, pictures=[file])
    assert "not a whole JPEG" in " ".join(answer.json()["faults"])


def rows(*typed: dict) -> dict:
    """Eight rows of paper, of which the first are filled in."""
    sent = {"form-TOTAL_FORMS": "8", "form-INITIAL_FORMS": "0"}
    for number, row in enumerate(typed):
        sent |= {f"form-{number}-{name}": value for name, value in row.items()}
    return sent


def test_the_paper_typed_up_says_the_same(maker, fitting):
    stays = fitting.garments.get(name="stays").pk
    first = {"garment": stays, "place": "waist", "what": "let out", "amount_um": "1/4"}
    second = {"garment": stays, "place": "hem", "what": "fits"}
    answer = maker.post(f"/fittings/{fitting.pk}/type-up/", rows(first, second))
    assert answer["Location"] == fitting.get_absolute_url()
    assert [str(one) for one in fitting.observations.all()] == [
        "stays, waist: let out 1/4 in",
        "stays, hem: fits well",
    ]
    assert {one.seen_at for one in fitting.observations.all()} == {fitting.planned_for}


def test_a_row_without_its_amount_keeps_all_that_was_typed(maker, fitting):
    stays = fitting.garments.get(name="stays").pk
    row = {"garment": stays, "place": "waist", "what": "let out", "note": "pinned twice"}
    page = maker.post(f"/fittings/{fitting.pk}/type-up/", rows(row)).content.decode()
    assert "Say by how much." in page
    assert "pinned twice" in page
    assert not Observation.objects.exists()


def test_an_empty_sheet_is_asked_for_a_row(maker, fitting):
    page = maker.post(f"/fittings/{fitting.pk}/type-up/", rows()).content.decode()
    assert "Type at least one row." in page


def test_the_script_that_opens_the_page_without_a_connection_lies_above_it(client, people):
    client.force_login(people.maker)
    answer = client.get("/fittings/hold-worker.js")
    assert answer["Content-Type"] == "text/javascript"
    assert answer["Cache-Control"] == "no-cache"
    assert "addEventListener" in answer.text
