"""A quick comparison becomes records: nothing typed again, the same figures, all of it or nothing."""

import pytest

from catalogue.plates.models.piece import Reading
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.reader.codec import to_json
from fitting.comparing import actions as quick
from fitting.comparing.forms.quick import EXAMPLE
from fitting.comparing.models import Comparison
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Maker, Take, Wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def keep(client, **typed):
    return client.post("/quick/keep/", dict(EXAMPLE) | typed)


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"scale": "1 in = 8 in", "allowance": "included", "allowance_size": "1/4 in"},
        {"allowance": "not known", "state": "undressed", "is_sent_in": "on", "purpose": "period look"},
        {"level-0-fit": "loose", "level-1-fit": "gathered", "read_from": "copy", "piece-2-on_fold": "on"},
    ],
)
def test_the_kept_comparison_has_the_very_figures_of_the_quick_one(maker, typed):
    quick_answer = to_json(maker.post("/quick/", dict(EXAMPLE) | typed).context["shown"].answer)
    keep(maker, **typed)
    kept = Comparison.objects.get().results
    for part in ("levels", "lengths", "plain_enlargement", "routes", "recommended", "next_step"):
        assert kept[part] == quick_answer[part]


def test_a_skill_that_was_said_is_kept_with_the_rest(maker, people):
    keep(maker, **{"skill-alter": "learning"})
    assert [(one.name, one.level) for one in Maker.objects.get(user=people.maker).skills.all()] == [
        ("alter", "learning")
    ]
    (alter,) = (
        one for one in Comparison.objects.get().results["routes"] if one["route"] == "enlarge and alter"
    )
    assert "skills" in {reason["rule"] for reason in alter["reasons"]}


def test_the_garment_is_found_in_the_catalogue_at_once(maker):
    keep(maker, **{"name-reference": "Blue bodice"})
    page = maker.get("/references/?text=blue&readings=yes&line=waist").context["page"]
    assert [listed.reference.name for listed in page] == ["Blue bodice"]


def test_every_record_is_there_as_it_was_typed(maker, people):
    response = keep(maker, **{"name-wearer": "Ottilie", "name-garment": "blue bodice"})
    garment = Garment.objects.get()
    assert response.url == garment.get_absolute_url()
    assert (garment.name, garment.outfit.wearer.name, garment.outfit.maker) == (
        "blue bodice",
        "Ottilie",
        people.maker,
    )
    assert [(piece.name, piece.cut) for piece in garment.plate.pieces.all()] == [
        ("front", 2),
        ("side back", 2),
        ("back", 2),
    ]
    front = Reading.objects.get(piece__name="front", line="waist")
    assert (front.reading_text, front.take_up_text) == ("13/16 in", "1/16 in")
    assert Reading.objects.get(line="nape to waist").piece.name == "back"
    assert {take.line: take.value_text for take in Take.objects.all()} == {
        "bust": "33 1/2 in",
        "waist": "25 in",
        "nape to waist": "15 in",
    }
    assert garment.references.get().reference == garment.plate.reference


def test_names_left_empty_take_what_was_offered(maker):
    keep(maker, **{"name-wearer": "", "name-reference": " "})
    assert Wearer.objects.get().name == "Wearer"
    assert ReferenceGarment.objects.get().name == "Garment on the plate"


def test_a_faulty_sheet_is_given_back_and_nothing_is_kept(maker):
    page = keep(maker, **{"level-0-body": "thirty", "name-wearer": "Ottilie"})
    assert [box.html_name for box in page.context["sheet"].faulty_boxes] == ["level-0-body"]
    assert page.context["sheet"].names["wearer"].value() == "Ottilie"
    assert not ReferenceGarment.objects.exists()


def test_when_nothing_can_be_compared_it_says_so_and_keeps_nothing(maker):
    page = keep(maker, **{"level-0-body": "", "level-1-body": "", "length-0-body": ""})
    assert "Read on the plate, but not measured" in page.content.decode()
    assert not Outfit.objects.exists()


def test_a_failure_half_way_leaves_no_record_behind(maker, monkeypatch):
    def fail(*args, **kwargs):
        raise RuntimeError("the disk is full")

    monkeypatch.setattr(quick, "compare_garment", fail)
    with pytest.raises(RuntimeError):
        keep(maker)
    assert not ReferenceGarment.objects.exists()
    assert not Wearer.objects.exists()
