"""A person erased or renamed leaves no name in other people's words but where the maker chose it."""

import json

import pytest
from django.apps import apps
from django.urls import reverse

from catalogue.workroom.actions.deletion import delete_for_a_while
from fitting.bench.loading.wearer_rows import held_of
from fitting.bench.loading.wearer_words import places_naming
from fitting.outfits.loading.outfit import names_hidden
from fitting.outfits.models.share import Share
from tests.makers.kept_work import make_work_note
from tests.makers.rows import (
    make_entry,
    make_garment,
    make_log_photo,
    make_material,
    make_measures,
    make_outfit,
    make_reference,
    make_source,
    make_wearer,
)

LINE = "Ottilie Marsh came: 38 1/2 in chest, 30 in waist. The lining is basted."


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


@pytest.fixture
def wearer(people):
    wearer = make_wearer(people.workroom, name="Ottilie Marsh")
    make_measures(wearer)
    return wearer


@pytest.fixture
def outfit(people, wearer):
    return make_outfit(people.workroom, name="Ottilie's dress", wearer=wearer)


def all_words() -> str:
    """Everything that is in the tables of both apps."""
    models = (one for label in ("catalogue", "fitting") for one in apps.get_app_config(label).get_models())
    rows = (row for model in models for row in model._base_manager.values_list())
    return "\n".join(json.dumps(row, default=str, ensure_ascii=False) for row in rows)


def erase(keeper, wearer, **choices):
    return keeper.post(reverse("wearer-erase", args=[wearer.pk]), {"name": "Ottilie Marsh", **choices})


def test_erasing_leaves_nothing_that_was_not_chosen_to_stay(keeper, people, wearer, outfit):
    entry = make_entry(outfit, text=LINE)
    make_log_photo(entry, caption="Ottilie at the window")
    make_material(outfit, name="Rose silk", notes="Paid by O. Marsh.")
    make_garment(outfit, name="bodice", notes="OTTILIE MARSH wants it long.\nBoned at the back.")
    make_source(people.workroom, title="Letters", notes="Lent by Ottilie Marsh.")
    reference = make_reference(people.workroom, name="The Marsh jacket")
    note = make_work_note(
        make_garment(outfit, name="skirt"), wearer=None, inputs={"for Ottilie": ["Marsh", 9]}
    )
    papers = make_source(people.workroom, title="Marsh papers")
    delete_for_a_while(row=papers, by=people.keeper)
    page = keeper.get(reverse("wearer-erase", args=[wearer.pk])).content.decode()
    assert "Ottilie Marsh came: 38 1/2 in chest, 30 in waist." in page
    assert erase(keeper, wearer).status_code == 302
    words = all_words()
    for left in ("Ottilie", "OTTILIE", "Marsh", "38 1/2"):
        assert left not in words, left
    entry.refresh_from_db()
    outfit.refresh_from_db()
    reference.refresh_from_db()
    assert entry.text == "[erased] The lining is basted."
    assert outfit.name == "[the wearer]'s dress"
    assert reference.name == "The [the wearer] jacket"
    assert "Rose silk" in words
    note.refresh_from_db()
    assert note.inputs == {"for [the wearer]": ["[the wearer]", 9]}


def test_a_place_is_rewritten_or_left_as_the_maker_chose(keeper, people, wearer, outfit):
    entry = make_entry(outfit, text=LINE)
    source = make_source(people.workroom, title="Marsh papers")
    places = {
        str(place.row._meta.model_name): place for place in places_naming(people.workroom, wearer.names)
    }
    erase(
        keeper,
        wearer,
        **{
            f"choice-{places['logentry'].key}": "rewrite",
            f"words-{places['logentry'].key}": "She came for the first fitting.",
            f"choice-{places['source'].key}": "leave",
        },
    )
    entry.refresh_from_db()
    source.refresh_from_db()
    outfit.refresh_from_db()
    assert entry.text == "She came for the first fitting."
    assert source.title == "Marsh papers"
    assert outfit.name == "[the wearer]'s dress"


def test_what_goes_with_the_person_is_not_asked_about(people, wearer, outfit):
    make_log_photo(make_entry(outfit), caption="Ottilie laughs", shows_wearer=True, wearer=wearer)
    places = places_naming(people.workroom, wearer.names, without=held_of(wearer))
    assert [str(place.row) for place in places] == ["Ottilie's dress"]


def test_renaming_offers_the_new_name_where_the_old_one_stands(keeper, people, wearer, outfit):
    entry = make_entry(outfit, text="Ottilie Marsh was here.")
    sent = {"name": "Tilly Fen", "dress": wearer.dress, "notes": ""}
    answer = keeper.post(reverse("wearer-change", args=[wearer.pk]), sent, follow=True)
    page = answer.content.decode()
    assert "The former name still stands here" in page
    assert "Tilly Fen was here." in page
    address = reverse("wearer-words", args=[wearer.pk])
    place = next(one for one in places_naming(people.workroom, ["Ottilie Marsh"]) if one.row == outfit)
    assert keeper.post(address, {f"choice-{place.key}": "leave"}).status_code == 302
    entry.refresh_from_db()
    outfit.refresh_from_db()
    wearer.refresh_from_db()
    assert entry.text == "Tilly Fen was here."
    assert outfit.name == "Ottilie's dress"
    assert wearer.names == ["Tilly Fen", "Ottilie Marsh"]
    assert address in keeper.get(wearer.get_absolute_url()).content.decode()


def test_a_share_made_after_renaming_hides_the_former_name_too(keeper, people, wearer, outfit):
    keeper.post(
        reverse("wearer-change", args=[wearer.pk]), {"name": "Tilly Fen", "dress": wearer.dress, "notes": ""}
    )
    assert names_hidden(Share(outfit=outfit)) == ["Tilly Fen", "Ottilie Marsh"]


def test_another_workrooms_words_are_not_touched(keeper, people, wearer):
    theirs = make_source(people.stranger.memberships.get().workroom, title="Ottilie Marsh, a memoir")
    erase(keeper, wearer)
    theirs.refresh_from_db()
    assert theirs.title == "Ottilie Marsh, a memoir"
