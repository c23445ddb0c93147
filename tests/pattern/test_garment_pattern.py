"""The page of a working pattern: begun, looked at, gone back, and what it says of itself."""

import re
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.plates.models.plate import Plate
from fitting.pattern.actions import take_step
from fitting.pattern.calculation.working.edges import Add
from fitting.pattern.models import WorkingVersion
from fitting.wearers.models import Take
from tests.makers.kept_work import make_pattern_version, make_seamed_bodice
from tests.makers.rows import NOON, make_garment, make_outfit, make_route_choice, um
from tests.makers.traced_bodice import make_traced_bodice

MOST_QUERIES = 12  # of a history of 60 steps


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def page(client, path: str) -> str:
    answer = client.get(path)
    assert answer.status_code == 200
    return answer.content.decode()


def pattern_page(client, garment) -> str:
    return page(client, f"/garments/{garment.pk}/pattern/")


def begin(client, garment, **boxes):
    boxes = {"plates": [garment.plate_id], "on": "", **boxes}
    return client.post(f"/garments/{garment.pk}/pattern/begin/", boxes, follow=True)


def newest(garment) -> WorkingVersion:
    return garment.pattern_versions.order_by("-number").first()


def add_at_wrist(version: WorkingVersion, people) -> WorkingVersion:
    """The upper sleeve longer by 10 mm, and so both its seams with the under sleeve."""
    asked = Add(piece="upper sleeve", edge="wrist", by_mm=10.0)
    return take_step(version, asked, by=people.maker, at=NOON)


@pytest.mark.django_db
def test_where_there_is_none_the_page_says_what_to_press_and_one_press_begins_it(maker, garment):
    assert "Begin the working pattern" in pattern_page(maker, garment)
    text = begin(maker, garment).content.decode()
    assert newest(garment).number == 1
    for piece in ("front", "under-arm", "side back", "back", "upper sleeve"):
        assert f">{piece}</title>" in text
    for word in ("bust or chest", "waist", "shoulder", "grain", "dart", "armhole"):
        assert f">{word}</text>" in text


@pytest.mark.django_db
def test_without_a_plate_it_leads_to_where_one_is_chosen(maker, people):
    bare = make_garment(make_outfit(people.workroom))
    text = pattern_page(maker, bare)
    assert f"/garments/{bare.pk}/change/" in text
    assert "Begin the working pattern" not in text


@pytest.mark.django_db
def test_an_untraced_plate_gives_boxes_that_say_so(maker, people):
    garment = make_seamed_bodice(people.workroom)
    text = begin(maker, garment).content.decode()
    assert "front is not traced: it is a box of its typed lengths." in text
    assert text.count('<span class="flag">a box</span>') == 2


@pytest.mark.django_db
def test_nothing_chosen_or_a_plate_of_nobody_begins_nothing(maker, garment):
    assert "Choose at least one plate" in begin(maker, garment, plates=[]).content.decode()
    begin(maker, garment, plates=[10**6])
    assert newest(garment) is None


@pytest.mark.django_db
def test_each_line_is_told_against_the_body_with_its_ease_and_the_doubt_of_the_tape(maker, people, garment):
    garment.eases.create(line="bust", ease_um=um("2 in"), ease_text="2 in")
    Take.objects.filter(line="bust").update(value_um=um("38 in"), value_text="38 in")
    version = make_pattern_version(garment, by=people.maker)
    text = pattern_page(maker, garment)
    row = re.search(r"<tr[^>]*>\s*<th scope=\"row\">bust or chest</th>.*?</tr>", text, re.S)[0]
    assert "40 in" in row  # 38 in and 2 in of ease
    assert "± " in row
    assert "too small" in row
    assert version.number == 1


@pytest.mark.django_db
def test_what_the_last_step_broke_comes_first_with_the_press_that_mends_it(maker, people, garment):
    version = add_at_wrist(make_pattern_version(garment, by=people.maker), people)
    assert len(version.broke) == 2
    text = pattern_page(maker, garment)
    first = text.index("What the last step broke")
    assert first < text.index("Its pieces")
    form = re.search(r"<form[^>]*steps/true/.*?</form>", text[first:], re.S)[0]
    boxes = dict(re.findall(r'name="(\w+)" value="([^"]*)"', form.replace("&quot;", "QUOTE")))
    boxes = {name: value.replace("QUOTE", '"') for name, value in boxes.items() if name != "show"}
    maker.post(f"/garments/{garment.pk}/pattern/steps/true/", boxes)
    mended = newest(garment)
    assert (mended.step, mended.number) == ("true", version.number + 1)
    assert version.broke[0] not in mended.broke
    assert version.broke[0] not in unescape(pattern_page(maker, garment))


@pytest.mark.django_db
def test_going_back_is_a_new_version_with_the_old_pieces(maker, people, garment):
    first = make_pattern_version(garment, by=people.maker)
    second = add_at_wrist(first, people)
    answer = maker.post(f"/pattern-versions/{first.pk}/back/", {"on": second.pk}, follow=True)
    third = newest(garment)
    assert third.number == 3
    assert third.pattern == first.pattern != second.pattern
    assert "Version 3 has the pieces of version 1." in answer.content.decode()


@pytest.mark.django_db
def test_who_looked_at_an_older_version_is_told_of_the_newer_and_changes_nothing(maker, people, garment):
    first = make_pattern_version(garment, by=people.maker)
    second = add_at_wrist(first, people)
    for answer in (
        maker.post(f"/pattern-versions/{first.pk}/back/", {"on": first.pk}, follow=True),
        begin(maker, garment, on=first.pk),
        begin(maker, garment),
    ):
        assert "Somebody made version 2 meanwhile" in answer.content.decode()
    assert newest(garment) == second


@pytest.mark.django_db
def test_an_older_version_is_looked_at_and_says_that_it_is_older(maker, people, garment):
    first = make_pattern_version(garment, by=people.maker)
    add_at_wrist(first, people)
    text = page(maker, first.get_absolute_url())
    assert "This is an older version." in text
    assert "Go back to this one" in text


@pytest.mark.django_db
def test_what_it_rests_on_has_changed_and_it_can_be_begun_again(maker, people, garment):
    make_pattern_version(garment, by=people.maker)
    assert "It is out of date" not in pattern_page(maker, garment)
    Plate.objects.get(pk=garment.plate_id).pieces.filter(name="collar").update(cut=5)
    Plate.objects.get(pk=garment.plate_id).pieces.filter(name="front").update(cut=4)
    text = pattern_page(maker, garment)
    assert "It is out of date" in text
    assert "changed after this pattern was begun" in text
    begin(maker, garment, on=newest(garment).pk)
    assert newest(garment).number == 2
    assert "It is out of date" not in pattern_page(maker, garment)


@pytest.mark.django_db
def test_sixty_steps_take_as_many_queries_as_two_and_no_old_pieces_are_read(maker, people, garment):
    version = make_pattern_version(garment, by=people.maker)
    add_at_wrist(version, people)
    counts = []
    for steps in (2, 60):
        for number in range(newest(garment).number + 1, steps + 1):
            WorkingVersion.objects.create(
                garment=garment, number=number, step="add", said="As before.", pattern=version.pattern,
                made_from=version, made_at=NOON, made_by=people.maker,
                rests_on=version.rests_on,
            )  # fmt: skip
        for path in ("versions/", ""):
            with CaptureQueriesContext(connection) as queries:
                page(maker, f"/garments/{garment.pk}/pattern/{path}")
            counts.append(len(queries))
            reads = [
                query["sql"] for query in queries if '"fitting_workingversion"."pattern"' in query["sql"]
            ]
            assert len(reads) == (0 if path else 1)
    assert counts[:2] == counts[2:]
    assert counts[0] <= MOST_QUERIES


@pytest.mark.django_db
def test_a_reader_sees_that_there_is_one_and_neither_its_figures_nor_a_way_to_change_it(
    client, people, garment
):
    version = make_pattern_version(garment, by=people.maker)
    client.force_login(people.reader)
    text = pattern_page(client, garment)
    assert "version 1" in text
    assert "<svg" not in text.partition("<main")[2]
    assert "<form" not in text.partition("<main")[2]
    assert client.get(version.get_absolute_url()).status_code == 403
    assert client.post(f"/garments/{garment.pk}/pattern/steps/mirror/").status_code == 403


@pytest.mark.django_db
def test_the_garment_its_pattern_work_its_comparison_and_its_route_lead_there(maker, people):
    garment = make_seamed_bodice(people.workroom)
    garment.plate.seams.all().delete()  # none that nobody knows how to sew
    # What its plate comes to: 2 · 8 · (3/4 in + 5/8 in) at the waist, 2 · 8 · (1 1/8 in + 1 in) at the bust.
    for line, text in (("waist", "22 in"), ("bust", "34 in")):
        Take.objects.filter(line=line).update(value_um=um(text), value_text=text)
    answer = maker.post(f"/garments/{garment.pk}/compare/", follow=True)
    comparison = answer.redirect_chain[-1][0]
    assert garment.comparisons.get().results["recommended"] == "enlarge as drawn"
    for path in (garment.get_absolute_url(), f"/garments/{garment.pk}/work/"):
        assert f'href="/garments/{garment.pk}/pattern/"' in page(maker, path)
    press = f'action="/garments/{garment.pk}/pattern/begin/"'
    assert page(maker, comparison).count(press) == 1
    before = page(maker, garment.get_absolute_url()).count(press)
    make_route_choice(garment, route="enlarge and grade")
    assert page(maker, garment.get_absolute_url()).count(press) == before + 1
    make_pattern_version(garment, by=people.maker)
    for path in (comparison, garment.get_absolute_url()):
        assert press not in page(maker, path)
        assert "Go to the working pattern" in page(maker, path)
