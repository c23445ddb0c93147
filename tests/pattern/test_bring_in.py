"""A drawing becomes the next version of the working pattern; and the version goes out as a file."""

from dataclasses import replace

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from catalogue.lengths.calculation.lengths import format_length
from catalogue.tracing.showing.svg import svg_of
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.exchange.kept_pattern import pattern_of_kept
from fitting.pattern.showing.pattern_outlines import drawing_of_pattern
from tests.makers.rows import make_garment, make_outfit
from tests.makers.working_pattern import BACK, FRONT, PATTERN, make_version


@pytest.fixture
def garment(people):
    return make_garment(make_outfit(people.workroom))


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def send(client, garment, drawn: str, *, on: int):
    file = SimpleUploadedFile("front.svg", drawn.encode(), content_type="image/svg+xml")
    address = f"/garments/{garment.pk}/pattern/bring-in/"
    return client.post(address, {"file": file, "unit": "said", "on": on})


def drawn(pattern: Pattern) -> str:
    return svg_of(drawing_of_pattern(pattern), "bodice")


@pytest.mark.django_db
def test_the_first_version_may_be_a_drawing(maker, garment):
    answer = send(maker, garment, drawn(PATTERN), on=0)
    assert answer.status_code == 302
    version = garment.pattern_versions.get()
    assert (version.number, version.step, version.made_from) == (1, "brought in", None)
    assert version.said == "Brought in from “front.svg”: front, back."
    assert pattern_of_kept(version.pattern).girths() == pytest.approx(PATTERN.girths())


@pytest.mark.django_db
def test_a_later_one_says_what_it_changed_and_what_it_broke(maker, garment):
    """The front's side is 600 mm down and a bow; ten more at its foot, and the seam is ten too long."""
    first = make_version(garment)
    nodes = list(FRONT.outline.nodes)
    nodes[2] = replace(nodes[2], at=300 + 610j)
    nodes[1] = replace(nodes[1], handles=None, curved=False)
    longer = replace(FRONT, outline=replace(FRONT.outline, nodes=tuple(nodes)))
    send(maker, garment, drawn(replace(PATTERN, pieces=(longer, BACK))), on=1)
    second = garment.pattern_versions.get(number=2)
    assert second.made_from == first
    before, after = second.changed["front"]["side"]
    assert after == pytest.approx(610)
    (broke,) = second.broke
    assert f"it is {format_length(after - before, system='in')} too long" in broke


@pytest.mark.django_db
def test_a_drawing_without_seams_keeps_those_that_were_there(maker, garment):
    make_version(garment)
    send(maker, garment, drawn(PATTERN).replace(" data-kept=", " data-was="), on=1)
    kept = pattern_of_kept(garment.pattern_versions.get(number=2).pattern)
    assert kept.seams == PATTERN.seams


@pytest.mark.django_db
def test_nothing_is_brought_in_over_what_somebody_made_meanwhile(maker, garment):
    make_version(garment)
    answer = send(maker, garment, drawn(PATTERN), on=0)
    assert "Another version was made meanwhile" in answer.content.decode()
    assert 'name="on" value="1"' in answer.content.decode()
    assert garment.pattern_versions.count() == 1


@pytest.mark.django_db
def test_a_drawing_of_five_thousand_points_is_refused_in_a_sentence(maker, garment):
    ring = "L".join(f"{at % 70} {at}" for at in range(5000))
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">'
    answer = send(maker, garment, f'{head}<path d="M{ring}Z"/></svg>', on=0)
    assert "at most 600 points" in answer.content.decode()
    assert not garment.pattern_versions.exists()


@pytest.mark.django_db
@pytest.mark.parametrize(("ending", "kind"), [("svg", "image/svg+xml"), ("dxf", "image/vnd.dxf")])
def test_a_version_goes_out_as_a_file_named_after_it(maker, garment, ending, kind):
    version = make_version(garment)
    answer = maker.get(f"/pattern-versions/{version.pk}/pattern.{ending}")
    assert answer["Content-Type"] == kind
    assert answer["Content-Disposition"].endswith(f'-version-1.{ending}"')
    assert b"front" in answer.content
