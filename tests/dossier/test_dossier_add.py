import pytest

from fitting.dossier.calculation import SECTIONS, USUAL
from fitting.dossier.models import Dossier
from tests.makers.rows import make_dossier, make_outfit, make_wearer


@pytest.fixture
def outfit(people, client):
    client.force_login(people.maker)
    return make_outfit(people.workroom, wearer=make_wearer(people.workroom))


def address(outfit) -> str:
    return f"/outfits/{outfit.pk}/dossiers/add/"


def test_it_offers_what_one_carries_to_a_fitting_in_the_persons_unit(client, people, outfit):
    people.maker.system = "cm"
    people.maker.save()
    offered = client.get(address(outfit)).context["form"].initial
    assert (offered["sections"], offered["paper"], offered["system"]) == (list(USUAL), "A4", "cm")


def test_it_remembers_what_was_chosen_last_time(client, outfit):
    make_dossier(outfit, sections=["outfit", "cautions"], paper="Letter", system="cm")
    offered = client.get(address(outfit)).context["form"].initial
    assert (offered["sections"], offered["paper"], offered["system"]) == (
        ["outfit", "cautions"],
        "Letter",
        "cm",
    )


def test_asking_makes_the_row_and_starts_the_process(
    client, people, outfit, started, django_capture_on_commit_callbacks
):
    chosen = {"sections": ["cautions", "outfit"], "paper": "A4", "system": "in"}
    with django_capture_on_commit_callbacks(execute=True):
        answer = client.post(address(outfit), chosen)
    dossier = Dossier.objects.get()
    assert answer.url == dossier.get_absolute_url()
    assert started == [dossier.work.pk]
    assert (dossier.sections, dossier.made_by, dossier.wearer) == (
        ["outfit", "cautions"],
        people.maker,
        outfit.wearer,
    )


def offered_order(page) -> list[str]:
    return [section.key for section, *_ in page.context["form"].rows]


def test_parts_are_printed_in_the_order_of_the_numbers_typed_and_that_order_is_remembered(
    client, outfit, started
):
    chosen = {"sections": ["outfit", "cautions", "log"], "place_log": "1", "place_cautions": "2"}
    client.post(address(outfit), {**chosen, "paper": "A4", "system": "in"})
    assert Dossier.objects.get().sections == ["log", "cautions", "outfit"]
    page = client.get(address(outfit))
    assert page.context["form"].initial["sections"] == ["log", "cautions", "outfit"]
    order = offered_order(page)
    assert order.index("log") < order.index("cautions") < order.index("outfit")


def test_another_outfit_keeps_its_own_order(client, people, outfit):
    make_dossier(outfit, sections=["cautions", "outfit"])
    page = client.get(address(make_outfit(people.workroom)))
    assert offered_order(page) == list(SECTIONS)


def test_one_button_prints_everything_and_leaves_the_choice_as_it_was(client, outfit, started):
    make_dossier(outfit, sections=["cautions", "outfit"])
    client.post(address(outfit), {"everything": "on", "paper": "A4", "system": "in"})
    dossier = Dossier.objects.first()
    assert dossier.is_everything
    assert sorted(dossier.sections) == sorted(SECTIONS)
    assert dossier.sections.index("cautions") < dossier.sections.index("outfit")
    assert client.get(address(outfit)).context["form"].initial["sections"] == ["cautions", "outfit"]


def test_a_place_that_is_no_number_is_said_beside_its_box(client, outfit, started):
    typed = {"sections": ["outfit"], "place_outfit": "first", "paper": "A4", "system": "in"}
    answer = client.post(address(outfit), typed)
    assert answer.context["form"].errors["place_outfit"]
    assert 'value="first"' in answer.content.decode()
    assert started == []


@pytest.mark.parametrize("sections", [[], ["the whole museum"]])
def test_nothing_or_something_unknown_is_not_printed(client, outfit, started, sections):
    answer = client.post(address(outfit), {"sections": sections, "paper": "A4", "system": "in"})
    assert answer.status_code == 200
    assert answer.context["form"].errors["sections"]
    assert not Dossier.objects.exists()
    assert started == []


def test_every_section_is_explained(client, outfit):
    page = client.get(address(outfit)).content.decode()
    assert all(section.label in page and section.holds in page for section in SECTIONS.values())


def test_the_outfits_page_lists_what_was_printed(client, outfit):
    make_dossier(outfit, pages=8, file_name="a.pdf")
    make_dossier(outfit, {"state": "failed"})
    page = " ".join(client.get(outfit.get_absolute_url()).content.decode().split())
    assert "ready, 8 pages" in page
    assert ", failed" in page
    assert address(outfit) in page
