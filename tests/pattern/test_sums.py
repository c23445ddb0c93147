"""A sum is told once: declared and given its row, it is asked on a page and in a file, kept and explained."""

import json
from io import StringIO

import pytest
from django.core.management import call_command

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums import table
from fitting.pattern.calculation.sums.declaration import PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures, at_waist
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, SheetAnswer
from fitting.pattern.exchange.sum_file import reckon_file
from fitting.pattern.models import WorkNote
from tests.makers.kept_work import make_seamed_bodice

INCH = 25.4

BRAID = PatternSum(
    key="braid",
    title="rows of braid",
    says="Braid for so many rows round a hem.",
    group="Skirts",
    command="skirt",
    inputs=(
        ask.Length("hem", "Hem", box="hem_mm", first=at_waist, is_needed=True),
        ask.Length("lap", "Laps over at its ends", default="1 in", first=INCH),
        ask.Whole("rows", "Rows", most=9, default=1, hint="One above the other."),
    ),
    reckon=lambda *, hem_mm, lap_mm, rows: rows * (hem_mm + lap_mm),
    worked=lambda braid_mm, given: SheetAnswer(
        figures={"braid": braid_mm}, lines=(AnswerLine(label="braid", parts=(braid_mm, " in all")),)
    ),
    answer=lambda braid_mm, given: {"braid_mm": braid_mm},
)


@pytest.fixture
def added(monkeypatch):
    """The table with one row more."""
    monkeypatch.setattr(table, "SUMS", (*table.SUMS, BRAID))
    monkeypatch.setitem(table.PAGES, BRAID.key, BRAID)
    monkeypatch.setitem(table.TITLES, BRAID.key, BRAID.title)


def test_a_sum_that_has_its_row_has_a_page_and_is_kept(added, client, people):
    client.force_login(people.maker)
    garment = make_seamed_bodice(people.workroom)
    at = f"/garments/{garment.pk}/work/braid/"
    assert "Braid for so many rows round a hem." in client.get(at).content.decode()
    # By hand: 3 × (60 + 1) = 183 in.
    answer = client.post(at, {"hem_mm": "60 in", "lap": "1 in", "rows": "3", "keep": "1"})
    note = WorkNote.objects.get(kind="braid")
    assert answer["Location"] == note.get_absolute_url()
    assert note.inputs == {"hem_mm": "60 in", "lap": "1 in", "rows": "3"}
    assert note.results["figures"] == {"braid": pytest.approx(183 * INCH)}
    note.full_clean(exclude=["made_by"])
    page = client.get(note.get_absolute_url()).content.decode()
    assert "Rows of braid" in page
    assert "183 in in all" in page


def test_a_sum_that_has_its_row_is_read_from_a_file_and_explained(added, tmp_path, capsys):
    asked = {"format": "plate-and-toile skirt", "version": 1, "braid": {"hem": "60 in", "rows": 3}}
    file = tmp_path / "braid.json"
    file.write_text(json.dumps(asked))
    told = StringIO()
    call_command("skirt", str(file), "--json", stdout=told)
    assert json.loads(told.getvalue()) == {
        "braid_mm": pytest.approx(183 * INCH),
        "defaults_used": {"braid.lap": "1 in"},
    }
    with pytest.raises(SystemExit):
        call_command("skirt", "--help")
    said = capsys.readouterr().out
    for line in (
        "  braid: Braid for so many rows round a hem.",
        "    hem: Hem (must be given)",
        "    lap: Laps over at its ends (left out: 1 in)",
        "    rows: Rows (left out: 1). One above the other.",
    ):
        assert f"\n{line}\n" in said


def test_what_is_wrong_with_a_table_is_told_by_the_keys_that_are_declared(added):
    with pytest.raises(Faults) as refused:
        reckon_file('{"braid": {"hem": "0 in", "rows": 10, "laps": "1 in"}}', command="skirt")
    assert [str(fault) for fault in refused.value.faults] == [
        "braid.laps: This key is not known here; did you mean “lap”.",
        "braid.hem: This must be more than nothing.",
        "braid.rows: This must be a whole number from 1 to 9.",
    ]


@pytest.mark.parametrize("asked", table.SUMS, ids=lambda one: one.key)
def test_every_sum_can_be_kept_and_names_what_it_asks_for_once(asked):
    column = WorkNote._meta.get_field("kind")
    assert len(asked.key) <= column.max_length
    assert bool(asked.title) == bool(asked.group)
    names = [ask.value_name(one) for one in asked.inputs]
    assert len(set(names)) == len(names)
    for rows in (one for one in asked.inputs if isinstance(one, ask.InputRows)):
        columns = [one.name for one in rows.columns]
        assert {rows.marked_by, rows.told_at or rows.marked_by, *rows.fixed} <= set(columns)


def test_of_a_garment_that_nothing_is_known_of_nothing_is_filled_that_must_be_read_off_it():
    known = GarmentFigures()
    assert at_waist(known) is None
    assert known.ratio("waist") is None
    assert known.traced_sleeve() == ()


def test_a_fault_of_the_strips_is_told_beside_their_box_and_not_beside_one_of_the_same_name(client, people):
    client.force_login(people.maker)
    garment = make_seamed_bodice(people.workroom)
    typed = {"pleat": "knife", "finished": "28 in", "width": "1 in", "depth": "1 in", "cloth_width": "22 in"}
    answer = client.post(f"/garments/{garment.pk}/work/pleats/", typed)
    assert answer.context["sheet"].errors == {
        "strip_depth": ["Strips need both the width of the cloth and their depth."]
    }
