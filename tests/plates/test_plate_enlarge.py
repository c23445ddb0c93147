import pytest

from catalogue.plates.models.plate import Plate
from tests.makers.rows import make_bodice_plate, make_draft_plate


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def address(people) -> str:
    return f"/plates/{make_bodice_plate(people.workroom).pk}/enlarge/"


def test_eight_times_is_three_passes_of_a_copier_that_doubles(maker, address):
    enlarging = maker.get(address).context["enlarging"]
    assert [one.percent for one in enlarging.passes] == pytest.approx([200, 200, 200])
    assert enlarging.passes[-1].bar_mm == pytest.approx(8 * 25.4)


def test_a_copy_of_another_size_needs_another_percentage(maker, address):
    typed = {"bar": "10 cm", "on_glass": "8 cm", "most_percent": "400", "step_percent": "1"}
    enlarging = maker.get(address, typed).context["enlarging"]
    # 100 · 8 · 10 / 8
    assert enlarging.percent == pytest.approx(1000)
    assert enlarging.full_bar_mm == pytest.approx(800)


def test_a_bar_measured_after_a_pass_corrects_the_next(maker, address):
    typed = {"bar": "1 in", "most_percent": "200", "step_percent": "1", "measured_now": "3 in"}
    assert maker.get(address, typed).context["enlarging"].next_percent == pytest.approx(800 / 3)


def test_a_projector_moves_as_far_as_the_bar_is_short(maker, address):
    typed = {"bar": "1 in", "most_percent": "200", "step_percent": "1", "distance": "2 m", "on_wall": "4 in"}
    assert maker.get(address, typed).context["enlarging"].distance_mm == pytest.approx(4000)
    del typed["on_wall"]
    assert "Type both" in maker.get(address, typed).content.decode()


def test_stretched_paper_is_said(maker, address):
    Plate.objects.update(
        scale_kind="grid", page_um=100_000, page_text="10 cm", real_um=800_000, real_text="80 cm",
        across_page_um=110_000, across_page_text="11 cm",
    )  # fmt: skip
    assert "The page is stretched" in maker.get(address).content.decode()


def test_a_draft_read_by_its_figures_is_drawn_out_and_not_enlarged(maker, people):
    page = maker.get(f"/plates/{make_draft_plate(people.workroom).pk}/enlarge/").content.decode()
    assert "draw the pieces at full size by their figures" in page
    assert "Drawn out as it is, this draft is for half bust or chest 18 in." in page
    assert "Reckon" not in page


def test_nothing_is_no_bar(maker, address):
    answer = maker.get(address, {"bar": "0 in", "most_percent": "100", "step_percent": "1"})
    assert set(answer.context["form"].errors) == {"bar", "most_percent"}
    assert "enlarging" not in answer.context
