"""The command that needs no database: the keys of its answer, and what it says of what it cannot read."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import call_command

from tests.makers.cases import INCH_MM, WORKED

ROOT = Path(__file__).resolve().parents[2]
LINE_KEYS = {
    *("garment_mm", "body_mm", "ease_mm", "wanted_mm", "difference_mm", "u_mm"),
    *("chances", "verdict", "sum", "largest_doubt"),
}


def answer_to(name: str, capsys: pytest.CaptureFixture[str], *options: str) -> dict:
    call_command("assess", str(WORKED / name), "--json", *options)
    return json.loads(capsys.readouterr().out)


def test_the_answer_has_the_keys_of_the_format(capsys):
    answer = answer_to("bodice_over_stays.json", capsys)
    assert list(answer) == [
        *(
            "answer",
            "levels",
            "lengths",
            "plain_enlargement",
            "routes",
            "recommended",
            "next_step",
            "defaults_used",
        )
    ]
    assert set(answer["levels"]["waist"]) == set(answer["lengths"]["nape to waist"]) == LINE_KEYS
    assert list(answer["levels"]["waist"]["chances"]) == ["too small", "add", "fits", "take off", "too large"]
    assert list(answer["lengths"]["nape to waist"]["chances"]) == [
        *("too small", "lengthen", "fits", "shorten", "too large")
    ]
    assert set(answer["levels"]["waist"]["largest_doubt"]) == {"input", "share", "u_mm_with_finer_rule"}
    for route in answer["routes"]:
        assert set(route) == {"route", "standing", "reasons", "hours"}
        for reason in route["reasons"]:
            assert set(reason) == {"rule", "effect", "read", "sentence"}
    assert [route["hours"] for route in answer["routes"]] == [3, 6, 10, 8, 7, 9, 4, 1]


def test_the_defaults_used_are_listed_by_path(capsys):
    used = answer_to("shirt_that_fits.json", capsys)["defaults_used"]
    assert used["scale.relative_doubt"] == "0.005"
    assert used["seam_allowance.drawn"] == "none"
    assert used["pieces[0].cut"] == "2"
    assert used["limits.add"] == "3 in"
    assert used["ease.waist"] == "0 in"
    assert used["seams"] == "all recorded"
    assert used["measures.length_doubt"] == "1/8 in"
    assert not {"rule_division", "measures.doubt", "days_left", "skills.alter"} & set(used)
    assert "other_patterns" not in used
    used = answer_to("waistcoat_to_add_to.json", capsys)["defaults_used"]
    assert (used["measures.doubt"], used["measures.length_doubt"]) == ("3/8 in", "1/4 in")
    assert (used["limits.length_fits"], used["skills.drape"]) == ("3/8 in", "not asked")


def test_while_the_allowance_is_not_known_two_results_are_printed(tmp_path, capsys):
    case = json.loads((WORKED / "waistcoat_to_add_to.json").read_text())
    case["seam_allowance"]["drawn"] = "not known"
    file = tmp_path / "case.json"
    file.write_text(json.dumps(case))
    call_command("assess", str(file), "--json")
    answer = json.loads(capsys.readouterr().out)
    # Two pieces with two edges of 1/2 in: 2 in less.
    assert answer["levels"]["waist"]["garment_mm"] == pytest.approx(24 * INCH_MM)
    assert answer["levels_if_included"]["waist"]["garment_mm"] == pytest.approx(22 * INCH_MM)
    assert answer["lengths_if_included"] == {}
    assert answer["routes"][1]["reasons"][0]["rule"] == "allowance not known"
    assert answer["next_step"].startswith("Settle whether the plate includes seam allowance")


def test_it_prints_a_table_for_people(capsys):
    call_command("assess", str(WORKED / "bodice_over_stays.json"))
    printed = capsys.readouterr().out
    assert printed.startswith("Adapt a sized pattern, though one must be found first: as drawn it wants 3 in")
    assert "−3 in ± 13/16 in  too small (88 %)" in printed
    assert "lengthen (91 %)" in printed
    assert "Recommended: adapt a sized pattern" in printed


def test_sums_can_speak_in_centimetres(capsys):
    answer = answer_to("shirt_that_fits.json", capsys, "--units", "cm")
    assert answer["levels"]["waist"]["sum"] == "2 × 8 × 3.81 cm ≈ 61.0 cm"


def test_in_a_process_of_its_own_it_reads_standard_input(tmp_path):
    done = subprocess.run(
        [sys.executable, str(ROOT / "manage.py"), "assess", "-", "--json"],
        cwd=tmp_path,
        input=(WORKED / "bodice_over_stays.json").read_bytes(),
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout)["levels"]["waist"]["verdict"] == "too small"


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (b"[1,", "file: This is not JSON: Expecting value at line 1, column 4."),
        (b"[1", "file: This is not JSON: Expecting ',' delimiter at line 1, column 3."),
        (b'{"format": 1' + b"0" * 5000 + b"}", "file: This JSON cannot be read:"),
        (b"[" * 100_000, "file: This JSON cannot be read:"),
        (b'{"format": "\\ud800"}', "file: This JSON cannot be read:"),
        (b"[]", "file: This must be a table in braces; a list is not."),
        (b"{}", "measures.girths: This is missing: give the girths of the wearer."),
    ],
)
def test_what_cannot_be_read_ends_with_2_and_faults_on_standard_error(tmp_path, capsys, given, said):
    file = tmp_path / "case.json"
    file.write_bytes(given)
    with pytest.raises(SystemExit) as ended:
        call_command("assess", str(file), "--json")
    printed = capsys.readouterr()
    assert ended.value.code == 2
    assert printed.out == ""
    assert printed.err.startswith(said)


def test_a_file_that_is_not_text_is_one_fault(tmp_path, capsys):
    (tmp_path / "case.json").write_bytes(b"\xff\xfe")
    with pytest.raises(SystemExit):
        call_command("assess", str(tmp_path / "case.json"))
    assert capsys.readouterr().err == f"file: {tmp_path / 'case.json'} is not text in UTF-8.\n"


def test_a_file_that_is_not_there_is_one_fault(capsys):
    with pytest.raises(SystemExit):
        call_command("assess", "gone.json")
    assert capsys.readouterr().err == "file: gone.json cannot be read: No such file or directory.\n"
