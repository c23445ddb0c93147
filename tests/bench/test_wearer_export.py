"""All that is held about a person, as one file they can take away."""

import io
import json
from zipfile import ZipFile

import pytest

from fitting.wearers.models import Take
from tests.makers.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_trial,
)
from tests.makers.rows import (
    make_comparison,
    make_dossier,
    make_garment,
    make_measures,
    make_outfit,
    make_wearer,
    um,
)


@pytest.fixture
def record(client, people) -> dict:
    wearer = make_wearer(people.workroom, name="Ottilie Brandt", notes="Left shoulder lower.")
    measures = make_measures(wearer, {"waist": "25 1/4 in"}, heel_um=um("1 in"), heel_text="1 in")
    for text in ("25 in", "64,5 cm"):
        Take.objects.create(measures=measures, line="waist", value_um=um(text), value_text=text)
    garment = make_garment(make_outfit(people.workroom, wearer=wearer))
    measures.worn.add(garment)
    make_comparison(garment)
    make_dossier(garment.outfit, pages=3)
    client.force_login(people.keeper)
    answer = client.get(f"/wearers/{wearer.pk}/export/")
    assert 'filename="ottilie-brandt-' in answer["Content-Disposition"]
    return json.loads(answer.content)


def test_every_take_is_there_as_typed_and_in_millimetres(record):
    (measures,) = record["measures"]
    assert [one["value"]["as_typed"] for one in measures["takes"]] == ["25 1/4 in", "25 in", "64,5 cm"]
    assert [one["value"]["mm"] for one in measures["takes"]] == [641.35, 635.0, 645.0]
    assert measures["come_to"]["waist"]["mm"] == pytest.approx((641.35 + 635 + 645) / 3)
    assert measures["heel"] == {"as_typed": "1 in", "mm": 25.4}
    assert measures["worn"] == ["bodice"]


def test_what_was_reckoned_and_printed_is_there(record):
    assert record["name"] == "Ottilie Brandt"
    assert record["notes"] == "Left shoulder lower."
    assert record["comparisons"][0]["results"]["levels"]["waist"]["body_mm"] == 635.0
    assert record["dossiers"][0]["pages"] == 3
    (outfit,) = record["outfits"]
    assert (outfit["name"], outfit["garments"]) == ("Visiting dress", ["bodice"])
    assert record["comparisons"][0]["garment"] == "bodice"


def test_a_maker_does_not_export(client, people):
    client.force_login(people.maker)
    assert client.get(f"/wearers/{make_wearer(people.workroom).pk}/export/").status_code == 403


def test_what_was_seen_and_done_is_there(client, people):
    wearer = make_wearer(people.workroom)
    garment = make_garment(make_outfit(people.workroom, wearer=wearer))
    observation = make_observation(make_fitting(garment.outfit), note="pinned twice")
    make_alteration(garment, observation=observation)
    make_trial(garment, {"waist": ("26 in", "26 1/4 in")})
    photo = make_observation_photo(observation, content=b"a picture")
    client.force_login(people.keeper)
    record = json.loads(client.get(f"/wearers/{wearer.pk}/export/").content)
    (seen,) = record["fittings"][0]["observations"]
    assert (seen["place"], seen["amount"]["as_typed"], seen["note"]) == ("waist", "1/2 in", "pinned twice")
    assert [one["file"] for one in seen["photos"]] == [photo.file_name(2000)]
    assert [one["part"] for one in record["alterations"][0]["parts"]] == ["paper", "toile"]
    assert record["trial_measures"][0]["sewn"]["as_typed"] == "26 1/4 in"
    archive = ZipFile(io.BytesIO(b"".join(client.get(f"/wearers/{wearer.pk}/photographs/"))))
    assert {name: archive.read(name) for name in archive.namelist()} == {photo.file_name(2000): b"a picture"}
