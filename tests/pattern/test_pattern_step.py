"""The page of a step: shown before it is taken, taken once, and nothing typed is lost."""

import json
from html import unescape

import pytest

from fitting.pattern.actions import take_step
from fitting.pattern.calculation.working.edges import Add
from fitting.pattern.forms.steps import STEP_FORMS
from tests.makers.kept_work import make_pattern_version
from tests.makers.rows import NOON
from tests.makers.traced_bodice import make_traced_bodice

WRIST = json.dumps(["upper sleeve", "wrist"])


@pytest.fixture
def version(people):
    return make_pattern_version(make_traced_bodice(people.workroom), by=people.maker)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def path(version, slug: str = "add") -> str:
    return f"/garments/{version.garment_id}/pattern/steps/{slug}/"


def newest(version):
    return version.garment.pattern_versions.order_by("-number").first()


@pytest.mark.django_db
def test_every_step_that_the_page_leads_to_opens_with_its_pieces_numbered(maker, version):
    text = maker.get(f"/garments/{version.garment_id}/pattern/").content.decode()
    for slug in STEP_FORMS:
        assert (path(version, slug) in text) == (slug not in ("move-dart", "part-dart", "gather-dart"))
        answer = maker.get(path(version, slug)).content.decode()
        assert ">1</text>" in answer
        assert "Take this step" in answer
    assert maker.get(path(version, "bleach")).status_code == 404


@pytest.mark.django_db
@pytest.mark.parametrize("send", ["get", "post"])
def test_what_it_would_do_is_shown_and_nothing_is_taken(maker, version, send):
    boxes = {"edge": WRIST, "by": "1/2 in", "on": version.pk, "show": "1"}
    text = unescape(getattr(maker, send)(path(version), boxes).content.decode())
    assert "Before and after" in text
    assert 'class="pattern-was"' in text
    assert "no longer meets" in text.partition("It would break this")[2]
    assert newest(version) == version


@pytest.mark.django_db
def test_taken_it_is_the_next_version_told_in_a_sentence(maker, version):
    boxes = {"edge": WRIST, "by": "1/2 in", "on": version.pk, "take": "1"}
    text = maker.post(path(version), boxes, follow=True).content.decode()
    assert newest(version).number == 2
    assert "Version 2: 1/2 in is added at the wrist of upper sleeve." in text


@pytest.mark.django_db
@pytest.mark.parametrize("send", ["get", "post"])
def test_a_fault_stands_beside_its_box_and_what_was_typed_is_still_there(maker, version, send):
    boxes = {"edge": WRIST, "by": "half a hand", "on": version.pk, "take": "1"}
    text = getattr(maker, send)(path(version), boxes).content.decode()
    assert 'value="half a hand"' in text
    assert "It cannot be shown yet" in text
    assert newest(version) == version


@pytest.mark.django_db
def test_an_outline_that_would_cross_itself_is_refused_in_words(maker, version):
    boxes = {"edge": WRIST, "by": "-90 in", "on": version.pk, "take": "1"}
    text = maker.post(path(version), boxes).content.decode()
    assert "It cannot be shown yet" in text
    assert newest(version) == version


@pytest.mark.django_db
def test_of_two_who_step_at_once_the_second_is_told_and_keeps_what_they_typed(maker, people, version):
    theirs = take_step(version, Add(piece="front", edge="hem", by_mm=5.0), by=people.keeper, at=NOON)
    boxes = {"edge": WRIST, "by": "7/16 in", "on": version.pk, "take": "1"}
    text = maker.post(path(version), boxes).content.decode()
    assert newest(version) == theirs
    assert f'<a href="{theirs.get_absolute_url()}">version 2</a> meanwhile' in text
    assert 'value="7/16 in"' in text
    assert f'name="on" value="{theirs.pk}"' in text
    maker.post(path(version), boxes | {"on": theirs.pk})
    assert newest(version).number == 3


@pytest.mark.django_db
def test_pressed_twice_it_is_taken_once(maker, version):
    boxes = {"edge": WRIST, "by": "1/2 in", "on": version.pk, "take": "1"}
    for _ in range(2):
        maker.post(path(version), boxes)
    assert newest(version).number == 2


@pytest.mark.django_db
@pytest.mark.parametrize("on", ["", "soon", "9" * 40])
def test_without_the_version_that_was_looked_at_nothing_is_taken(maker, version, on):
    maker.post(path(version), {"edge": WRIST, "by": "1/2 in", "on": on, "take": "1"})
    assert newest(version) == version


@pytest.mark.django_db
def test_where_no_pattern_is_begun_a_step_leads_to_its_beginning(maker, people):
    garment = make_traced_bodice(people.workroom)
    answer = maker.get(f"/garments/{garment.pk}/pattern/steps/add/", follow=True)
    assert "Begin the working pattern" in answer.content.decode()


@pytest.mark.django_db
def test_from_a_beginning_to_the_altered_sheets_it_is_five_presses(maker, people):
    """Begin; alter to the wearer; take; print the sheets; make the PDF."""
    garment = make_traced_bodice(people.workroom)
    begun = f"/garments/{garment.pk}/pattern/begin/"
    text = maker.post(begun, {"plates": garment.plate_id}, follow=True).content.decode()
    step = f"/garments/{garment.pk}/pattern/steps/alter/"
    assert step in text
    filled = maker.get(step).context["form"]
    boxes = {filled.add_prefix(name): filled[name].value() for name in filled.fields}
    boxes = {name: value for name, value in boxes.items() if value not in (None, "")}
    on = garment.pattern_versions.get().pk
    text = maker.post(step, boxes | {"on": on, "take": "1"}, follow=True).content.decode()
    assert garment.pattern_versions.count() == 2
    sheets = f"/garments/{garment.pk}/sheets/"
    assert sheets in text
    assert f"{sheets}file/" in maker.get(sheets).content.decode()
