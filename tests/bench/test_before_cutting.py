"""Before cutting: what is left of the newest version, line by line, until its paper is ready."""

from dataclasses import replace

import pytest
from django.utils import timezone

from fitting.bench.loading.before_cutting import before_cutting
from fitting.fittings.models.alteration import Inlay
from fitting.laying.models import Lay
from fitting.pattern.actions import begin_pattern
from fitting.pattern.calculation.working.pattern import Allowance, Pattern
from fitting.pattern.loading.start import plates_of
from tests.makers.fittings import make_alteration, make_trial
from tests.makers.kept_work import make_lay
from tests.makers.rows import make_garment, make_material, make_outfit, um
from tests.makers.traced_bodice import make_traced_bodice
from tests.makers.working_pattern import BACK, FRONT, PATTERN, SIDE_SEAM, make_version

TICKS = ("toile", "allowances", "inlays", "list", "pairs", "nap", "sheets", "bought", "shrunk")


@pytest.fixture
def garment(people):
    return make_garment(make_outfit(people.workroom))


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def standing(garment):
    return {line.label: line for line in before_cutting(garment).lines}


def tick(client, garment, what, *, number=1, is_done=True):
    typed = {"what": what, "number": number, **({"is_done": "1"} if is_done else {})}
    return client.post(f"/garments/{garment.pk}/before-cutting/", typed)


@pytest.mark.django_db
def test_without_a_pattern_the_page_says_what_comes_first(maker, garment):
    text = maker.get(f"/garments/{garment.pk}/before-cutting/").content.decode()
    assert "No working pattern has been begun" in text


@pytest.mark.django_db
def test_every_line_leads_to_where_it_is_done(maker, garment):
    make_version(garment)
    for line in standing(garment).values():
        assert maker.get(line.link).status_code == 200, line.label


@pytest.mark.django_db
def test_a_seam_half_a_millimetre_off_its_ease_is_true_and_a_little_more_is_not(garment):
    """Both sides are of one length: with an ease of 0.5 mm said the first is 0.5 too short, with 0.6 0.6."""
    for ease_mm, is_done in ((0.5, True), (0.6, False)):
        make_version(garment, replace(PATTERN, seams=(replace(SIDE_SEAM, ease_mm=ease_mm),)))
        assert standing(garment)["Seams true"].is_done is is_done
    assert standing(garment)["Seams true"].found == (
        "Side of front is 0.6 mm shorter than its seam asks for.",
    )


@pytest.mark.django_db
def test_the_seams_and_the_sleeve_of_a_pattern_just_begun_are_true(people):
    garment = make_traced_bodice(people.workroom)
    begin_pattern(garment, plates_of(garment)[:1], on=None, by=people.maker, at=timezone.now())
    assert standing(garment)["Seams true"].found == ()


@pytest.mark.django_db
def test_allowances_pairs_and_inlays_are_found_in_the_pattern_and_the_garment(garment):
    odd = replace(FRONT, name="pocket", cut=3)
    make_version(garment, Pattern(pieces=(FRONT, replace(BACK, cut=2), odd)))
    found = standing(garment)
    assert found["Allowances set"].found == ("None is set for back.",)
    assert found["Pairs checked"].found == (
        "back is cut 2 times, all of one hand.",
        "pocket is cut 3 times, so its pairs do not come out even.",
    )
    assert found["Inlays set"].found == ("No seam has an inlay.",)
    Inlay.objects.create(garment=garment, edge="side", allowance_um=um("1 in"), allowance_text="1 in")
    assert standing(garment)["Inlays set"].is_done


@pytest.mark.django_db
def test_the_toile_is_settled_once_every_alteration_has_reached_the_paper(garment):
    make_version(garment)
    make_trial(garment)
    alteration = make_alteration(garment)
    assert standing(garment)["Toile settled"].found == (f"Not on paper yet: {alteration}.",)
    alteration.parts.filter(part="paper").update(done_on=timezone.localdate())
    assert standing(garment)["Toile settled"].is_done


@pytest.mark.django_db
def test_cloth_is_bought_when_what_is_there_comes_to_what_is_needed(garment):
    """3 yards needed, 1 at hand: 2 more are to be bought."""
    make_version(garment)
    assert standing(garment)["Cloth bought"].found == ("No line of the materials is its outer cloth.",)
    given = {"needed_um": um("3 yd"), "needed_text": "3 yd", "on_hand_um": um("1 yd"), "on_hand_text": "1 yd"}
    row = make_material(garment.outfit, garment=garment, kind="cloth", **given)
    assert not standing(garment)["Cloth bought"].is_done
    row.bought_um, row.bought_text = um("2 yd"), "2 yd"
    row.save()
    assert standing(garment)["Cloth bought"].is_done


@pytest.mark.django_db
def test_a_lay_of_an_earlier_version_does_not_count(garment):
    make_version(garment)
    make_version(garment)
    lay = make_lay(garment)
    Lay.objects.filter(pk=lay.pk).update(results=[{"is": "laid"}], inputs=lay.inputs | {"version": 1})
    assert standing(garment)["Lay made of this version"].found == (
        "Its outer cloth has no lay of version 2.",
    )
    Lay.objects.filter(pk=lay.pk).update(inputs=lay.inputs | {"version": 2})
    assert standing(garment)["Lay made of this version"].is_done


@pytest.mark.django_db
def test_when_all_is_done_the_garment_can_be_brought_to_patterned(maker, garment):
    whole = replace(BACK, allowance=Allowance(usual_mm=12.7))
    make_version(garment, replace(PATTERN, pieces=(FRONT, whole)))
    lay = make_lay(garment)
    Lay.objects.filter(pk=lay.pk).update(results=[{"is": "laid"}], inputs=lay.inputs | {"version": 1})
    assert maker.post(f"/garments/{garment.pk}/before-cutting/", {"patterned": "1"}).status_code == 200
    garment.refresh_from_db()
    assert garment.stage != "patterned"
    for what in TICKS:
        assert tick(maker, garment, what).status_code == 302
    assert "all is done" in maker.get(f"/garments/{garment.pk}/before-cutting/").content.decode()
    maker.post(f"/garments/{garment.pk}/before-cutting/", {"patterned": "1"})
    garment.refresh_from_db()
    assert garment.stage == "patterned"


@pytest.mark.django_db
def test_a_tick_is_taken_back_and_a_new_version_has_none(maker, garment):
    version = make_version(garment)
    tick(maker, garment, "nap")
    tick(maker, garment, "nap")
    assert version.cutting_ticks.get().ticked_by.username
    tick(maker, garment, "nap", is_done=False)
    assert not version.cutting_ticks.exists()
    tick(maker, garment, "shrunk")
    make_version(garment)
    assert not standing(garment)["Cloth shrunk"].is_done
    refused = tick(maker, garment, "nap", number=1)
    assert "Another version was made meanwhile" in refused.content.decode()


@pytest.mark.django_db
def test_the_cutting_list_says_how_many_are_mirrored_by_cloth(maker, garment):
    lining = replace(FRONT, name="front lining", cloth="lining")
    make_version(garment, Pattern(pieces=(FRONT, BACK, lining)))
    by_cloth = before_cutting(garment).by_cloth
    said = {
        cloth: [(row.piece.name, row.piece.cut, row.mirrored) for row in by_cloth[cloth]]
        for cloth in by_cloth
    }
    assert said == {"outer": [("front", 2, 1), ("back", 1, 0)], "lining": [("front lining", 2, 1)]}


@pytest.mark.django_db
def test_a_reader_and_a_stranger_are_turned_away(client, people, garment):
    for person, status in ((people.reader, 403), (people.stranger, 404)):
        client.force_login(person)
        assert client.get(f"/garments/{garment.pk}/before-cutting/").status_code == status
