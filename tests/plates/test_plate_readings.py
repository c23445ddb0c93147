"""The table of readings: what is typed in one go is kept in one go, or all of it stays in the boxes."""

import pytest

from catalogue.plates.loading import plate_findings
from catalogue.plates.models.plate import Plate
from tests.makers.rows import make_bodice_plate, make_draft_plate, make_piece, make_plate, make_reference


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def plate(people) -> Plate:
    """Two pieces without readings: a front cut twice and a back drawn to a fold."""
    plate = make_plate(make_reference(people.workroom))
    make_piece(plate, "front")
    make_piece(plate, "back", cut=1, on_fold=True)
    return plate


def typed(plate: Plate, lines: list[str], cells: dict[tuple[str, str], str], **other: str) -> dict:
    """What a browser sends: `cells` by piece and line, everything else as it stands."""
    plate.refresh_from_db()
    boxes = {"line": lines, "as_of": plate.changed_at.isoformat(), "is_half": "on" if plate.is_half else ""}
    boxes = {name: value for name, value in boxes.items() if value}
    pieces = {piece.name: piece for piece in plate.pieces.all()}
    for piece in pieces.values():
        boxes[f"cut-{piece.pk}"] = str(piece.cut)
        if piece.on_fold:
            boxes[f"fold-{piece.pk}"] = "on"
    for (name, line), text in cells.items():
        boxes[f"reading-{pieces[name].pk}-{line.replace(' ', '_')}"] = text
    return boxes | other


def keep(client, plate: Plate, *args, **kwargs):
    return client.post(f"/plates/{plate.pk}/readings/", typed(plate, *args, **kwargs))


def reckoned_in(plate: Plate, line: str) -> float:
    fresh = Plate.objects.for_detail_page().get(pk=plate.pk)
    return plate_findings(fresh)["outer"].by_line[line].full_size.mm / 25.4


def texts(plate: Plate) -> dict[tuple[str, str], str]:
    return {
        (piece.name, reading.line): reading.reading_text
        for piece in plate.pieces.all()
        for reading in piece.readings.all()
    }


def test_readings_typed_in_one_table_give_the_girth(maker, plate):
    # Common practice, no source: a half waist of 1 1/2 in at 1:8 is a waist of 24 in.
    keep(maker, plate, ["waist"], {("front", "waist"): "3/4", ("back", "waist"): "3/4 in"})
    assert reckoned_in(plate, "waist") == pytest.approx(24, abs=1e-9)
    page = maker.get(plate.get_absolute_url()).content.decode()
    assert "half so far 3/4 in" in page
    assert "half so far 1 1/2 in" in page
    assert "24 in" in page


def test_a_bare_whole_number_counts_sixteenths_when_the_switch_says_so(maker, plate):
    keep(maker, plate, ["waist"], {("front", "waist"): "12", ("back", "waist"): "1 1/4"}, sixteenths="on")
    assert texts(plate) == {("front", "waist"): "12/16 in", ("back", "waist"): "1 1/4 in"}
    assert "checked" in str(maker.get(plate.get_absolute_url()).context["form"]["sixteenths"])


def test_what_is_not_understood_keeps_everything_typed_and_nothing_else(maker, plate):
    cells = {("front", "waist"): "1-2 in", ("back", "waist"): "3/4", ("front", "bust"): "14,5 km"}
    answer = keep(maker, plate, ["bust", "waist"], cells)
    page = answer.content.decode()
    assert texts(plate) == {}
    for text in cells.values():
        assert f'value="{text}"' in page
    assert page.count('aria-invalid="true"') == 2
    assert "is a range" in page


def test_an_emptied_box_takes_its_reading_away(maker, people):
    plate = make_bodice_plate(people.workroom)
    keep(maker, plate, ["bust", "waist"], {("front", "waist"): "3/4 in", ("back", "bust"): "1 in"})
    assert texts(plate) == {("front", "waist"): "3/4 in", ("back", "bust"): "1 in"}


def test_lines_and_pieces_that_another_person_added_meanwhile_are_left_alone(maker, plate):
    boxes = typed(plate, ["waist"], {("front", "waist"): "3/4 in"})
    make_piece(plate, "collar", {"neck": "1 in"})
    plate.pieces.get(name="back").readings.create(line="bust", reading_um=25400, reading_text="1 in")
    maker.post(f"/plates/{plate.pk}/readings/", boxes)
    assert texts(plate) == {
        ("front", "waist"): "3/4 in",
        ("collar", "neck"): "1 in",
        ("back", "bust"): "1 in",
    }


def test_a_take_up_is_taken_off_before_the_plate_is_enlarged(maker, plate):
    # Hecklinger, Handbook on Dress and Cloak Cutting, 1884, pp. 7–12: half of 16, two darts of 2, waist 24.
    Plate.objects.filter(pk=plate.pk).update(ratio="1:1")
    front = plate.pieces.get(name="front")
    keep(maker, plate, ["waist"], {("front", "waist"): "16 in"}, **{f"take_up-{front.pk}-waist": "4 in"})
    assert reckoned_in(plate, "waist") == pytest.approx(24, abs=1e-9)


@pytest.mark.parametrize(
    ("reading", "take_up", "sentence"),
    [
        ("", "1/8", "nothing is read there"),
        ("1/8", "1/8", "less than the whole reading"),
        ("0", "", "more than nothing"),
    ],
)
def test_a_take_up_needs_a_larger_reading(maker, plate, reading, take_up, sentence):
    front = plate.pieces.get(name="front")
    answer = keep(
        maker, plate, ["waist"], {("front", "waist"): reading}, **{f"take_up-{front.pk}-waist": take_up}
    )
    assert sentence in answer.content.decode()
    assert texts(plate) == {}


def test_the_box_for_the_half_doubles_what_is_cut_once_and_nothing_on_a_fold(maker, people):
    plate = make_plate(make_reference(people.workroom), is_half=False)
    make_piece(plate, "front", cut=1)
    make_piece(plate, "back", cut=1, on_fold=True)
    make_piece(plate, "strip", cut=4)
    keep(maker, plate, ["waist"], {}, is_half="on")
    assert [piece.cut for piece in plate.pieces.all()] == [2, 1, 4]
    # A whole stomacher on a half plate stays single once the box has been ticked.
    front = plate.pieces.get(name="front")
    keep(maker, plate, ["waist"], {}, **{f"cut-{front.pk}": "1"})
    front.refresh_from_db()
    assert front.cut == 1


def test_overlap_and_gap_may_differ_by_level_and_are_full_size(maker, plate):
    cells = {
        ("front", "waist"): "12",
        ("back", "waist"): "12",
        ("front", "bust"): "16",
        ("back", "bust"): "16",
    }
    widths = {"overlap-all-every": "1", "gap-all-waist": "2 in", "overlap-all-waist": "0"}
    keep(maker, plate, ["bust", "waist"], cells, sixteenths="on", **widths)
    assert reckoned_in(plate, "bust") == pytest.approx(32 - 1, abs=1e-9)
    assert reckoned_in(plate, "waist") == pytest.approx(24 + 2, abs=1e-9)
    keep(maker, plate, ["bust", "waist"], cells, sixteenths="on")
    assert not plate.fastenings.exists()


def test_ends_that_cross_a_seam_shorten_a_length_by_the_allowance(maker, plate):
    Plate.objects.filter(pk=plate.pk).update(
        allowance="included", allowance_um=12700, allowance_text="1/2 in"
    )
    back = plate.pieces.get(name="back")
    keep(
        maker,
        plate,
        ["nape to waist"],
        {("back", "nape to waist"): "2"},
        **{f"crossed-{back.pk}-nape_to_waist": "2"},
    )
    assert reckoned_in(plate, "nape to waist") == pytest.approx(16 - 1, abs=1e-9)


def test_a_column_is_added_and_stays_until_it_is_used(maker, plate):
    answer = keep(maker, plate, ["waist"], {}, more_line="upper arm")
    columns = maker.get(answer["Location"].split("#")[0]).context["columns"]
    assert [line.key for line in columns] == ["waist", "upper arm"]


def test_two_people_at_one_table_are_told_and_lose_nothing(maker, plate):
    stale = typed(plate, ["waist"], {("front", "waist"): "3/4"})
    keep(maker, plate, ["waist"], {("front", "waist"): "5/8"})
    answer = maker.post(f"/plates/{plate.pk}/readings/", stale)
    assert "changed on another screen" in answer.content.decode()
    assert texts(plate) == {("front", "waist"): "5/8 in"}
    as_shown = answer.context["form"]["as_of"].value()
    maker.post(f"/plates/{plate.pk}/readings/", stale | {"as_of": as_shown})
    assert texts(plate) == {("front", "waist"): "3/4 in"}


def test_figures_of_a_draft_are_in_parts_unless_they_are_ticked_as_plain(maker, people):
    plate = make_draft_plate(people.workroom)
    front, gusset = plate.pieces.get(name="front"), plate.pieces.get(name="gusset")
    cells = {("front", "waist"): "7 in", ("gusset", "waist"): "2 in"}
    ticked = {f"plain-{front.pk}-waist": "on"}
    keep(maker, plate, ["waist"], cells, **ticked)
    assert (front.readings.get(line="waist").is_plain, gusset.readings.get().is_plain) == (True, False)
    answer = keep(maker, plate, ["waist"], cells | {("gusset", "waist"): "two"}, **ticked)
    assert answer.context["form"][f"plain-{front.pk}-waist"].value() is True
    assert answer.context["form"][f"plain-{gusset.pk}-waist"].value() is False


def test_a_diagram_asks_for_no_ticks_and_keeps_those_of_the_draft_that_it_was(maker, people):
    plate = make_draft_plate(people.workroom)
    Plate.objects.update(kind="diagram")
    assert 'name="plain-' not in maker.get(plate.get_absolute_url()).content.decode()
    keep(maker, plate, ["waist"], {("gusset", "waist"): "3 in"})
    assert plate.pieces.get(name="gusset").readings.get().is_plain


def test_centimetres_are_read_in_the_makers_own_unit(client, people, plate):
    people.maker.system = "cm"
    people.maker.save()
    client.force_login(people.maker)
    keep(client, plate, ["waist"], {("front", "waist"): "1,9"})
    assert plate.pieces.get(name="front").readings.get().reading_um == 19_000


def test_the_table_asks_as_often_for_many_pieces_as_for_one(maker, people, django_assert_max_num_queries):
    plate = make_plate(make_reference(people.workroom))
    for number in range(12):
        make_piece(plate, f"piece {number}", {"waist": "3/4 in", "bust": "1 in", "nape to waist": "2 in"})
    with django_assert_max_num_queries(12):
        maker.get(plate.get_absolute_url())
