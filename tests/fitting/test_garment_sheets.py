"""The page that prints a garment's traced pieces, and the file that comes of it."""

import io

import pytest
from pypdf import PdfReader

from catalogue.models import TracedPiece
from tests.fitting.traced_bodice import make_traced_bodice

BOXES = {
    "shape": "as drawn",
    "size": "full size",
    "one_to": "8",
    "paper": "A4",
    "roll_width": "",
    "overlap": "15 mm",
    "allowance": "1/2 in",
}


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def ask(client, garment, *, file: bool = False, **typed):
    pieces = [str(piece.pk) for piece in garment.plate.pieces.all()]
    address = f"/garments/{garment.pk}/sheets/{'file/' if file else ''}"
    return client.get(address, {**BOXES, "pieces": pieces, **typed})


def read(answer) -> PdfReader:
    assert answer["Content-Type"] == "application/pdf", answer.content.decode()[:2000]
    return PdfReader(io.BytesIO(answer.content))


@pytest.mark.django_db
def test_the_page_plan_says_how_many_pages_the_file_has(maker, garment):
    shown = ask(maker, garment)
    pages = len(shown.context["sheet"].pages)
    assert f"{pages} pages of A4" in shown.content.decode()
    assert len(read(ask(maker, garment, file=True)).pages) == pages + 1


@pytest.mark.django_db
def test_the_file_is_named_after_the_garment_and_says_what_it_is_of(maker, garment):
    answer = ask(maker, garment, file=True, shape="graded")
    assert answer["Content-Disposition"] == 'attachment; filename="bodice-full-size.pdf"'
    text = "".join(page.extract_text() for page in read(answer).pages)
    assert "graded to measures of 2 November 2026" in text
    assert "cut 1 on the fold, outer" in text


@pytest.mark.django_db
def test_graded_and_drawn_pieces_are_not_the_same(maker, garment):
    drawn, graded = (ask(maker, garment, shape=shape).context["sheet"] for shape in ("as drawn", "graded"))
    assert graded.pieces[0].cut.area > 1.02 * drawn.pieces[0].cut.area


@pytest.mark.django_db
def test_an_edge_may_have_an_allowance_of_its_own(maker, garment):
    form = maker.get(f"/garments/{garment.pk}/sheets/").context["form"]
    hem = next(field for field, name in form.edges.items() if name == "hem")
    usual, deep = (ask(maker, garment, **typed).context["sheet"] for typed in ({}, {hem: "3 in"}))
    heights = [sheet.pieces[0].cut.bounds[3] - sheet.pieces[0].cut.bounds[1] for sheet in (usual, deep)]
    assert heights[1] - heights[0] > 60
    none = ask(maker, garment, **{hem: "0 in"}).context["sheet"]
    assert none.pieces[0].cut.area < usual.pieces[0].cut.area


@pytest.mark.django_db
def test_only_the_pieces_chosen_are_printed(maker, garment):
    collar = garment.plate.pieces.get(name="collar")
    sheet = ask(maker, garment, pieces=[str(collar.pk)]).context["sheet"]
    assert [piece.words[0] for piece in sheet.pieces] == ["collar"]
    assert len(sheet.pages) == 1


@pytest.mark.django_db
def test_a_miniature_is_one_page_at_the_scale_of_the_plate(maker, garment):
    answer = ask(maker, garment, file=True, size="miniature", allowance="3 mm")
    assert len(read(answer).pages) == 1
    assert "miniature" in answer["Content-Disposition"]


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"paper": "roll"}, "A roll is from 200 mm"),
        ({"paper": "roll", "roll_width": "3 in"}, "A roll is from 200 mm"),
        ({"overlap": "8 in"}, "at most a quarter"),
        ({"allowance": "soon"}, "soon"),
        ({"size": "miniature", "one_to": "1"}, "take a larger"),
        ({"pieces": []}, "required"),
    ],
)
def test_what_cannot_be_printed_is_said_and_what_was_typed_is_kept(maker, garment, typed, sentence):
    answer = ask(maker, garment, file=True, **typed)
    assert answer["Content-Type"].startswith("text/html")
    text = answer.content.decode()
    assert sentence in text
    assert 'value="15 mm"' in text or "overlap" in typed


@pytest.mark.django_db
def test_without_a_traced_piece_it_says_what_to_do(maker, garment):
    TracedPiece.objects.all().delete()
    for file in (False, True):
        assert "No piece of its plate is traced yet" in ask(maker, garment, file=file).content.decode()


@pytest.mark.django_db
def test_a_wearer_without_measures_has_the_pieces_as_drawn(maker, garment):
    garment.outfit.wearer.measures.all().delete()
    form = maker.get(f"/garments/{garment.pk}/sheets/").context["form"]
    assert [value for value, _ in form.fields["shape"].choices] == ["as drawn"]
    assert ask(maker, garment, file=True).status_code == 200


@pytest.mark.django_db
def test_a_reader_and_a_stranger_are_turned_away(client, people, garment):
    for person, status in ((people.reader, 403), (people.stranger, 404)):
        client.force_login(person)
        for file in (False, True):
            assert ask(client, garment, file=file).status_code == status
