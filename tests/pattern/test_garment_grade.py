"""The page that grades a garment's traced pieces to its wearer."""

import pytest
from django.utils import timezone

from catalogue.plates.models.plate import Plate
from catalogue.tracing.models import TracedPiece
from fitting.pattern.loading.grading import graded_garment
from fitting.pattern.loading.traced_plate import traced_plate
from fitting.wearers.models import Take
from tests.makers.rows import make_garment, make_outfit, um
from tests.makers.traced_bodice import SEAMS, make_traced_bodice


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def graded(garment, people):
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
    return graded_garment(garment, traced_plate(plate), by=people.maker, at=timezone.now())


def page(client, garment) -> str:
    answer = client.get(f"/garments/{garment.pk}/grade/")
    assert answer.status_code == 200
    return answer.content.decode()


@pytest.mark.django_db
def test_every_level_and_length_comes_to_what_the_wearer_measures(people, garment):
    grading = graded(garment, people).grading
    found = {line.line: line for line in (*grading.girths, *grading.lengths)}
    assert set(found) == {"bust", "waist", "upper arm", "nape to waist"}
    for line, text in (("bust", "38 in"), ("waist", "26 in"), ("nape to waist", "15 3/4 in")):
        assert found[line].graded_mm == pytest.approx(um(text) / 1000, abs=0.5)
    assert len(grading.joins) == len(SEAMS)


@pytest.mark.django_db
def test_a_proportional_draft_is_graded_from_as_it_was_drawn(people, garment):
    drawn = graded(garment, people).grading
    # For a much smaller body than the wearer's: drawn out for the wearer it is a quarter larger than traced.
    small = {"drawn_for_line": "bust", "drawn_for_um": um("15 in"), "drawn_for_text": "15 in"}
    Plate.objects.filter(pk=garment.plate_id).update(kind="draft", **small)
    found = graded(garment, people)
    assert found.left_out == ()
    for now, before in zip(found.grading.girths, drawn.girths, strict=True):
        assert (now.drawn_mm, now.graded_mm) == pytest.approx((before.drawn_mm, before.graded_mm))


@pytest.mark.django_db
def test_the_page_shows_figures_drawings_and_the_way_to_the_sheets(maker, garment):
    text = page(maker, garment)
    assert text.count("38 in") >= 2  # wanted and graded
    assert text.count("<svg") >= 7
    assert f"/garments/{garment.pk}/sheets/" in text
    assert "common practice" in text


@pytest.mark.django_db
def test_kept_figures_stay_when_the_wearer_changes(maker, garment):
    kept = maker.post(f"/garments/{garment.pk}/grade/", follow=True)
    note = garment.work_notes.get()
    assert kept.redirect_chain[-1][0] == note.get_absolute_url()
    Take.objects.filter(line="waist").update(value_um=um("27 in"), value_text="27 in")
    assert "26 in" in maker.get(note.get_absolute_url()).content.decode()
    assert "27 in" in page(maker, garment)


@pytest.mark.django_db
def test_without_a_plate_or_a_tracing_it_says_what_to_do(maker, people, garment):
    bare = make_garment(make_outfit(people.workroom))
    assert "no plate yet" in page(maker, bare)
    TracedPiece.objects.all().delete()
    assert "No piece of its plate is traced yet" in page(maker, garment)


@pytest.mark.django_db
def test_a_wearer_without_measures_is_named_with_the_page_to_type_them(maker, garment):
    garment.outfit.wearer.measures.all().delete()
    text = page(maker, garment)
    assert "It cannot be graded yet" in text
    assert "has not been measured yet" in text


@pytest.mark.django_db
def test_a_level_that_is_not_traced_on_every_piece_is_left_out_and_named(people, garment):
    TracedPiece.objects.get(piece__name="back").delete()
    found = graded(garment, people)
    assert any("not traced across back" in sentence for sentence in found.left_out)
    assert [line.line for line in found.grading.girths] == ["upper arm"]


@pytest.mark.django_db
def test_a_tracing_that_disagrees_with_its_readings_is_not_graded_by(people, garment):
    for reading in garment.plate.pieces.get(name="front").readings.filter(line="waist"):
        reading.take_up_um, reading.take_up_text = reading.reading_um // 2, ""
        reading.save()
    found = graded(garment, people)
    assert any("does not give what was read" in sentence for sentence in found.left_out)
    assert "waist" not in {line.line for line in found.grading.girths}


@pytest.mark.django_db
def test_an_allowance_that_nobody_knows_is_said_before_anything(people, garment):
    assert graded(garment, people).left_out == ()
    Plate.objects.update(allowance=Plate.AllowanceKind.UNKNOWN)
    assert "is not known" in graded(garment, people).left_out[0]


@pytest.mark.django_db
def test_a_wearer_far_from_the_plate_is_refused_by_level(maker, garment):
    Take.objects.filter(line="waist").update(value_um=um("60 in"), value_text="60 in")
    text = page(maker, garment)
    assert "It cannot be graded" in text
    assert "Waist: The wearer is too far from the plate" in text


@pytest.mark.django_db
def test_a_reader_and_a_stranger_are_turned_away(client, people, garment):
    for person, status in ((people.reader, 403), (people.stranger, 404)):
        client.force_login(person)
        assert client.get(f"/garments/{garment.pk}/grade/").status_code == status
