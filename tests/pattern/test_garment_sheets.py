"""The page that prints a garment's traced pieces, and the file that comes of it."""

import datetime
import io
from html import unescape
from urllib.parse import urlencode

import pytest
from pypdf import PdfReader

from catalogue.plates.models.plate import Plate
from catalogue.tracing.models import TracedPiece
from catalogue.workroom.reader.codec import from_json
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.wearers.models import Stand, StandMeasure
from tests.makers.fittings import make_alteration
from tests.makers.rows import um
from tests.makers.traced_bodice import make_traced_bodice

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
    pieces = [str(piece.key) for piece in garment.plate.pieces.all()]
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
def test_a_proportional_draft_printed_as_drawn_says_for_whom_that_is(maker, garment):
    small = {"drawn_for_line": "bust", "drawn_for_um": um("15 in"), "drawn_for_text": "15 in"}
    Plate.objects.filter(pk=garment.plate_id).update(kind="draft", scale_kind="figures", **small)
    answer = ask(maker, garment, file=True)
    text = "".join(page.extract_text() for page in read(answer).pages)
    assert "as drawn for half bust or chest 15 in" in text
    # Figures have no scale of their own to print a miniature at.
    first = maker.get(f"/garments/{garment.pk}/sheets/").context["form"]
    assert first["one_to"].value() == 8


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
    sheet = ask(maker, garment, pieces=[str(collar.key)]).context["sheet"]
    assert [piece.words[0] for piece in sheet.pieces] == ["collar"]
    assert len(sheet.pages) == 1


@pytest.mark.django_db
def test_a_miniature_is_one_page_at_the_scale_of_the_plate(maker, garment):
    answer = ask(maker, garment, file=True, size="miniature", small_allowance="3 mm")
    assert len(read(answer).pages) == 1
    assert "miniature" in answer["Content-Disposition"]


@pytest.mark.django_db
def test_the_page_plan_can_be_kept_for_the_dossier(maker, garment):
    sheet = ask(maker, garment).context["sheet"]
    pieces = [str(piece.key) for piece in garment.plate.pieces.all()]
    boxes = urlencode({**BOXES, "pieces": pieces}, doseq=True)
    answer = maker.post(f"/garments/{garment.pk}/sheets/?{boxes}", follow=True)
    worked = from_json(SheetAnswer, garment.work_notes.get().results)
    assert worked.figures["pages"] == len(sheet.pages)
    assert [row[0][0] for row in worked.grids[0].rows] == [piece.shape.name for piece in sheet.pieces]
    assert len(worked.drawings[0].strokes) == len(sheet.pages) + len(sheet.pieces)
    again = next(line for line in answer.content.decode().splitlines() if "Print these again" in line)
    assert maker.get(unescape(again.split('href="')[1].split('"')[0])).context["sheet"].pages


@pytest.fixture
def small_stand(people):
    stand = Stand.objects.create(workroom=people.workroom, name="Pin")
    for line, text in (("bust", "4 in"), ("waist", "2 in")):
        StandMeasure.objects.create(stand=stand, line=line, value_um=um(text), value_text=text)
    return stand


@pytest.mark.django_db
def test_for_a_small_stand_the_ratio_follows_from_its_girths(maker, garment, small_stand):
    """The wearer is 38 in round the bust and 26 in round the waist: 9 1/2 and 13 times the stand."""
    typed = {
        "size": "miniature",
        "shape": "graded",
        "stand": small_stand.key,
        "one_to": "",
        "allowance": "2 mm",
    }
    shown = ask(maker, garment, **typed, paper="A3")
    assert 1 / shown.context["sheet"].scale == pytest.approx(9.5)
    assert "1 to 9.50" in shown.content.decode()
    page = read(ask(maker, garment, file=True, **typed, paper="A3")).pages
    assert len(page) == 1
    assert "1 to 9.5" in page[0].extract_text()


@pytest.mark.django_db
def test_a_miniature_has_an_allowance_of_its_own(maker, garment):
    """Half an inch on paper is none for tissue: what is said for full size does not count there."""
    assert maker.get(f"/garments/{garment.pk}/sheets/").context["form"]["small_allowance"].value() == "1/8 in"
    small, bare = (
        ask(maker, garment, size="miniature", allowance="2 in", small_allowance=text).context["sheet"]
        for text in ("1/8 in", "")
    )
    inside = small.pieces[0].cut.buffer(-3.175, join_style="mitre")
    assert inside.area == pytest.approx(bare.pieces[0].cut.area, rel=0.01)


@pytest.mark.django_db
def test_a_stand_of_another_workroom_is_not_offered(maker, garment, people):
    other = Stand.objects.create(workroom=people.stranger.memberships.get().workroom, name="Far")
    assert "stand" in ask(maker, garment, size="miniature", stand=other.key).context["form"].errors


@pytest.mark.django_db
def test_a_miniature_may_be_printed_on_a_roll_no_longer_than_it_need_be(maker, garment):
    typed = {"size": "miniature", "one_to": "2", "paper": "roll", "roll_width": "36 in"}
    page = read(ask(maker, garment, file=True, **typed)).pages[0]
    assert float(page.mediabox.width) == pytest.approx(36 * 72, abs=0.1)
    assert float(page.mediabox.height) < 1000 / 25.4 * 72


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"paper": "roll"}, "A roll is from 200 mm"),
        ({"paper": "roll", "roll_width": "3 in"}, "A roll is from 200 mm"),
        ({"overlap": "8 in"}, "at most a quarter"),
        ({"allowance": "soon"}, "soon"),
        ({"size": "miniature", "one_to": "1"}, "the largest that does"),
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
    patterns = maker.get(f"/garments/{garment.pk}/sheets/").context["patterns"]
    assert [one.how for one in patterns] == ["as drawn"]
    assert ask(maker, garment, file=True).status_code == 200


@pytest.mark.django_db
def test_a_reader_and_a_stranger_are_turned_away(client, people, garment):
    for person, status in ((people.reader, 403), (people.stranger, 404)):
        client.force_login(person)
        for file in (False, True):
            assert ask(client, garment, file=file).status_code == status


@pytest.mark.django_db
def test_every_piece_and_page_says_which_version_of_the_pattern_it_is(maker, garment):
    first = ask(maker, garment, file=True)
    assert all("pattern version 1" in page.extract_text() for page in read(first).pages)
    paper = make_alteration(garment).parts.get(part="paper")
    paper.done_on = datetime.date(2026, 11, 17)
    paper.save()
    second = ask(maker, garment, file=True)
    assert all("pattern version 2 of 17 November 2026" in page.extract_text() for page in read(second).pages)
    pieces = ask(maker, garment).context["sheet"].pieces
    assert all("pattern version 2 of 17 November 2026" in piece.words for piece in pieces)
