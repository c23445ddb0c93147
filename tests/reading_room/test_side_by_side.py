import pytest

from catalogue.references.models.tag import Tag
from tests.makers.rows import (
    make_bodice_plate,
    make_piece,
    make_plate,
    make_reference,
    make_scan,
    make_traced,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def page_of(client, *references):
    return client.get("/references/side-by-side/", {"garment": [reference.pk for reference in references]})


def test_one_garment_alone_is_asked_for_company(maker, people):
    reference = make_reference(people.workroom)
    page = page_of(maker, reference).content.decode()
    assert f"/references/?garment={reference.pk}" in page
    assert "Tick two to 4" in maker.get("/references/side-by-side/").content.decode()


def test_facts_measures_proportions_and_pieces_stand_side_by_side(maker, people):
    first = make_bodice_plate(people.workroom).reference
    second = make_reference(people.workroom, name="jacket", fastening="pinned")
    make_piece(make_plate(second), "side back", {"waist": "1 in", "bust": "1 3/4 in"}, cut=2)
    answer = page_of(maker, first, second)
    page = answer.content.decode()
    # 8 × 2 × (3/4 + 5/8) in and 8 × 2 × 1 in.
    for words in ("22 in", "16 in", "pinned", "Bust − waist", "side back", "± "):
        assert words in page
    waist = next(row for row in answer.context["girths"] if row.label == "Waist")
    assert waist.is_apart
    assert [row.label for row in answer.context["roles"]] == ["Front", "Side", "Back"]


def test_they_stand_in_the_order_asked_for_and_a_fifth_is_left_out(maker, people):
    five = [make_reference(people.workroom, name=f"coat {number}") for number in range(5)]
    answer = page_of(maker, *reversed(five))
    assert [side.reference.name for side in answer.context["sides"]] == [
        "coat 4",
        "coat 3",
        "coat 2",
        "coat 1",
    ]
    assert "Up to 4 garments" in answer.content.decode()


def test_the_plate_with_most_readings_speaks_for_a_garment(maker, people):
    reference = make_bodice_plate(people.workroom).reference
    fuller = make_plate(reference, title="The fuller one")
    make_piece(fuller, "front", {"waist": "1 in", "bust": "1 in", "hip": "1 in"})
    sides = page_of(maker, reference, make_reference(people.workroom)).context["sides"]
    assert sides[0].plate == fuller
    assert sides[1].plate is None


def test_no_garment_of_another_workroom_is_laid_there(maker, people):
    theirs = make_reference(people.stranger.memberships.get().workroom, name="not yours")
    answer = page_of(maker, make_reference(people.workroom), theirs)
    assert len(answer.context["sides"]) == 1
    assert "not yours" not in answer.content.decode()


@pytest.mark.parametrize("key", ["x", "-1", "9" * 30, "1.5", "²", "", "0"])
def test_what_is_no_garment_is_passed_over(maker, people, key):
    assert maker.get("/references/side-by-side/", {"garment": [key, key]}).status_code == 200


@pytest.mark.parametrize("count", [2, 4])
def test_four_are_asked_for_as_often_as_two(maker, people, django_assert_num_queries, count):
    tag = Tag.objects.create(workroom=people.workroom, name="loan")
    references = [make_bodice_plate(people.workroom).reference for _ in range(count)]
    for reference in references:
        reference.tags.add(tag)
    with django_assert_num_queries(12):
        page_of(maker, *references)


def traced_reference(workroom, name, **given):
    """A garment whose front is a rectangle of 100 by 200 mm, with its side seam named."""
    plate = make_plate(make_reference(workroom, name=name), title=f"Plate of {name}", **given)
    make_scan(plate)
    return make_traced(make_piece(plate, "front"))


def name_edges(traced, *names, wider_px=0):
    for node, name in zip(traced.nodes, names, strict=True):
        node["edge"] = name
    traced.nodes[1]["x"] += wider_px
    traced.nodes[2]["x"] += wider_px
    traced.save()
    return traced.piece.plate.reference


@pytest.fixture
def two(people):
    """Traced fronts, of which the second is 10 mm wider."""
    names = ("neck", "side seam", "hem", "centre front")
    first = name_edges(traced_reference(people.workroom, "jacket"), *names)
    second = name_edges(traced_reference(people.workroom, "gown"), *names, wider_px=20)
    return first, second


def laid(client, two, **choices):
    keys = [reference.pk for reference in two]
    return client.get("/references/side-by-side/", {"garment": keys, **choices})


def test_traced_outlines_lie_over_each_other_by_a_point_that_both_have(maker, two):
    answer = laid(maker, two)
    pair = answer.context["overlay"].pairs[0]
    assert [pair.first.point, pair.other.point] == ["centre front and neck"] * 2
    shared = dict(pair.shared)
    assert shared["side seam"].gap.mm == pytest.approx(10)
    assert shared["centre front"].gap.mm == pytest.approx(0, abs=1e-6)
    assert shared["neck"].longer.value == pytest.approx(10)
    assert shared["side seam"].agreement == "one line, in another place"


def test_the_page_says_the_gap_that_its_drawing_and_its_table_show(maker, people, two):
    people.maker.system = "cm"
    people.maker.save()
    edges = {f"{reference.pk}-edge": "side seam" for reference in two}
    page = laid(maker, two, **edges).content.decode()
    assert "Along side seam the largest gap between the two outlines is <strong>1.0 cm</strong>" in page
    assert "A–B 1.0 cm</text>" in page
    assert page.count("laid-line laid-A") == page.count("laid-line laid-B") == 2
    assert "What lines do A and B share?" in page


def test_the_address_holds_point_edge_and_how_each_lies(maker, two):
    first, second = two
    choices = {
        f"{first.pk}-point": "hem and side seam",
        f"{second.pk}-point": "hem and side seam",
        f"{first.pk}-edge": "neck",
        f"{second.pk}-edge": "hem",
        f"{second.pk}-lie": "mirrored",
        "upright": "centre",
    }
    overlay = laid(maker, two, **choices).context["overlay"]
    pair = overlay.pairs[0]
    assert (pair.first.edge, pair.other.edge, overlay.upright) == ("neck", "hem", "centre")
    # Held at the foot of the side, and the second in a mirror: their centre fronts lie on either side of it.
    centres = [one.laid.edge("centre front")[0].start.real for one in overlay.pieces]
    assert centres == [pytest.approx(-100), pytest.approx(110)]


@pytest.mark.parametrize("wrong", ["", "no such", "<b>", "9" * 30, "²"])
def test_what_a_piece_does_not_have_is_chosen_again(maker, two, wrong):
    names = ("piece", "lie", "point", "edge")
    choices = {f"{reference.pk}-{name}": wrong for reference in two for name in names}
    answer = laid(maker, two, upright=wrong, **choices)
    assert answer.context["overlay"].pairs[0].first.point == "centre front and neck"


def test_a_garment_without_a_traced_piece_is_named_with_what_to_do(maker, people, two):
    plate = make_plate(make_reference(people.workroom, name="apron"), title="Apron of 1790")
    page = laid(maker, [*two, plate.reference]).content.decode()
    assert "scan, calibrate and trace Apron of 1790" in page
    assert "Lay them so" in page
    alone = laid(maker, [two[0], plate.reference]).content.decode()
    assert "once a piece of two of these garments is traced" in alone
    assert "Lay them so" not in alone


def test_an_outline_without_named_edges_is_held_as_a_whole(maker, people, two):
    unnamed = name_edges(traced_reference(people.workroom, "cap"), "", "", "", "")
    pair = laid(maker, [unnamed, two[1]]).context["overlay"].pairs[0]
    assert (pair.first.edge, pair.other.edge, pair.shared) == ("", "neck", ())


@pytest.mark.parametrize("count", [2, 4])
def test_four_traced_are_asked_for_as_often_as_two(maker, people, django_assert_num_queries, count):
    references = [traced_reference(people.workroom, f"coat {n}").piece.plate.reference for n in range(count)]
    with django_assert_num_queries(14):
        laid(maker, references)
