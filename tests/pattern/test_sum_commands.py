"""The commands that do one sum from a file, held to published worked examples; each with who says so."""

import json
from contextlib import suppress
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.table import of_command
from fitting.pattern.exchange.sum_file import reckon_file

SUMS = Path(__file__).resolve().parents[2] / "fixtures" / "sums"
FILES = {
    "knife_pleats": "fullness",
    "gored_walking_skirt": "skirt",
    "bias_from_a_remnant": "bias",
    "sleeve_gathered_over_the_top": "seams",
}
COMMANDS = ("fullness", "skirt", "bias", "seams")
IN, CM = 25.4, 10.0


def reckoned(command, table):
    return reckon_file(json.dumps(table), command=command)


def faults(command, table):
    with pytest.raises(Faults) as raised:
        reckoned(command, table)
    return [str(fault) for fault in raised.value.faults]


# fmt: off
PUBLISHED = [
    # NIMI (India), CITS Dress Making Trade Practical, Ex. 48: p. 188 (the strip is printed 2.34 for 2.36 m),
    # p. 189 knife, box and inverted pleats, p. 194 tucks.
    ("fullness", {"pleats": {"kind": "knife", "finished": "92 cm", "width": "5 cm", "depth": "4 cm"}},
     {"number": 18, "flat_mm": 236 * CM, "width_mm": 92 / 18 * CM}),
    ("fullness", {"pleats": {"kind": "knife", "finished": "50 cm", "width": "2.5 cm", "depth": "2.5 cm"}},
     {"number": 20, "flat_mm": 150 * CM}),
    ("fullness", {"pleats": {"kind": "box", "finished": "60 cm", "number": 1, "depth": "12 cm"}},
     {"flat_mm": 108 * CM}),
    ("fullness", {"pleats": {"kind": "inverted", "finished": "66 cm", "number": 1, "depth": "6.5 cm"}},
     {"flat_mm": 92 * CM}),
    ("fullness", {"tucks": {"finished": "28 cm", "spacing": "1.7 cm", "depth": "2 mm", "edge": "2 cm"}},
     {"number": 16, "flat_mm": 34.4 * CM, "spacing_mm": 1.6 * CM}),
    # Text-Book on Domestic Art: a kilted skirt of 5 yd of cloth, 4 yd round the hem, here in 1-in pleats.
    ("fullness", {"pleats": {"kind": "knife", "finished": "4 yd", "flat": "5 yd", "width": "1 in"}},
     {"number": 144, "depth_mm": IN / 8}),
    # L. I. Baldt, Clothing for Women, 1916: a tuck takes up twice its depth; by hand 11 tucks of 1/4 in.
    ("fullness", {"tucks": {"number": 11, "spacing": "1 in", "depth": "1/4 in"}},
     {"finished_mm": 10 * IN, "flat_mm": 15.5 * IN}),
    # The same: a straight ruffle is 1 1/2 times its space.
    ("fullness", {"gathers": {"finished": "60 in", "ratio": 1.5,
                              "strips": {"cloth_width": "36 in", "depth": "5 in"}}},
     {"flat_mm": 90 * IN, "strips": {"number": 3, "joined_mm": 108 * IN, "cloth_mm": 15 * IN}}),
    # Waist 26 in: prettyquirkypants.com, 2014, prints 4.13 for a whole circle, 8.2 for half of one.
    ("skirt", {"circle": {"waist": "26 in", "length": "40 in"}},
     {"inner_mm": pytest.approx(4.138 * IN, abs=0.02)}),
    ("skirt", {"circle": {"waist": "26 in", "length": "40 in", "part": 0.5}},
     {"inner_mm": pytest.approx(8.276 * IN, abs=0.02)}),
    ("skirt", {"circle": {"waist": "26 in", "length": "40 in", "part": 0.25}},
     {"inner_mm": pytest.approx(16.552 * IN, abs=0.02)}),
    # Geometry: hem = waist + turn × length.
    ("skirt", {"circle": {"waist": "24 in", "length": "40 in"}},
     {"hem_mm": pytest.approx(275.33 * IN, abs=0.1), "outer_mm": pytest.approx(43.82 * IN, abs=0.02)}),
    ("skirt", {"circle": {"waist": "24 in", "length": "40 in", "part": 0.5}},
     {"hem_mm": pytest.approx(149.66 * IN, abs=0.1)}),
    ("skirt", {"circle": {"waist": "24 in", "length": "40 in", "part": 0.25}},
     {"hem_mm": pytest.approx(86.83 * IN, abs=0.1)}),
    # sewaquilt.com: 12 × 12 in at 2 in is 72 in; mydecozo.co.uk: 20 × 20 in is 200 in.
    ("bias", {"rectangle": {"width": "12 in", "length": "12 in", "strip": "2 in"}},
     {"strip_length_mm": 72 * IN}),
    ("bias", {"rectangle": {"width": "20 in", "length": "20 in", "strip": "2 in"}},
     {"strip_length_mm": 200 * IN}),
    # A stored how-to page: a square of 22 in less one seam of 1/4 in, at 3 in: 157.7 in.
    ("bias", {"rectangle": {"width": "22 in", "length": "22 in", "strip": "3 in", "seam": "1/4 in"}},
     {"strip_length_mm": pytest.approx(157.7 * IN, abs=1)}),
    # 36 × 36 in at 2 in is 648 in, 18 yd (sew-whats-new.com); 250 in at 2 in asks for 23 in (mydecozo.co.uk).
    ("bias", {"rectangle": {"width": "36 in", "length": "36 in", "strip": "2 in"}},
     {"strip_length_mm": 648 * IN}),
    ("bias", {"square": {"total": "250 in", "strip": "2 in"}}, {"side_mm": 23 * IN}),
    # quiltersquestiontime.com, 2021: 100 in at 3 1/2 in is a square of 18.71, so 19 in.
    ("bias", {"square": {"total": "100 in", "strip": "3 1/2 in"}}, {"side_mm": 19 * IN}),
    # A Sewing Course for Teachers, “True Bias”: a strip corner to corner of 27 in; by geometry 27 × √2.
    ("bias", {"strips": {"total": "38 in", "strip": "2 in", "cloth_width": "27 in"}},
     {"number": 1, "each_mm": pytest.approx(38.18 * IN, abs=0.1)}),
    # A. Hecklinger, Handbook on Dress and Cloak Cutting, 1884, p. 20: a head of 18 for an armhole of 16.
    ("seams", {"seam": {"stretches": [{"first": "18 in", "second": "16 in", "ease": "2 in"}]}},
     {"difference_mm": pytest.approx(2 * IN)}),
]
# fmt: on


@pytest.mark.parametrize(("command", "table", "wanted"), PUBLISHED)
def test_published_examples_come_out(command, table, wanted):
    answer = reckoned(command, table)
    for name, value in wanted.items():
        assert answer[name] == (pytest.approx(value) if isinstance(value, int | float) else value), name


@pytest.mark.parametrize(("name", "command"), FILES.items())
def test_each_file_to_start_from_is_answered_in_text_and_in_json(name, command):
    text, figures = StringIO(), StringIO()
    call_command(command, str(SUMS / f"{name}.json"), stdout=text)
    call_command(command, str(SUMS / f"{name}.json"), "--json", stdout=figures)
    answer = json.loads(figures.getvalue())
    assert " in\n" in text.getvalue()
    assert len(answer) > 1


@pytest.mark.parametrize("command", COMMANDS)
def test_help_says_what_each_table_holds(command, capsys):
    with pytest.raises(SystemExit):
        call_command(command, "--help")
    said = capsys.readouterr().out
    for key, asked in of_command(command).items():
        assert f"\n  {key}: {asked.says}\n" in said
        assert all(f"\n    {one.name}: " in said for one in asked.inputs)


def test_every_fault_is_told_with_its_path():
    assert faults("fullness", {"pleats": {"kind": "knif", "finished": 92, "deepth": "4 cm"}}) == [
        "pleats.deepth: This key is not known here; did you mean “depth”.",
        'pleats.kind: This must be one of: knife, box, inverted, double box, cartridge; "knif" is not.',
        'pleats.finished: This must be a length as text with its unit, for example "1 1/2 in"; 92 is not.',
    ]


@pytest.mark.parametrize(
    ("command", "table", "where"),
    [
        ("fullness", {}, "file"),
        ("fullness", {"pleats": {"kind": "knife"}, "tucks": {}}, "file"),
        ("fullness", {"pleats": {"kind": "knife", "finished": "9 in"}}, "pleats.finished"),
        ("fullness", {"tiers": {"top": "26 in", "ratio": 1e14, "number": 40}}, "tiers.hem"),
        # Counts that follow from a slip of the pen: sixteen million tiers, notches and pleats past counting.
        ("fullness", {"tiers": {"top": "26 in", "hem": "130 in", "ratio": 1.0000001}}, "tiers.ratio"),
        ("fullness", {"pleats": {"kind": "knife", "finished": "92 cm", "width": "0.001 mm", "depth": "4 cm"}},
         "pleats.width"),
        ("fullness", {"tucks": {"finished": "92 cm", "spacing": "0.001 mm", "depth": "4 mm"}},
         "tucks.spacing"),
        ("seams", {"seam": {"stretches": [{"first": "1 m", "second": "1 m"}], "notches_every": "0.0001 mm"}},
         "seam.notches_every"),
        ("bias", {"strips": {"total": "900 m", "strip": "1 in", "cloth_width": "1 in", "seam": "1/4 in"}},
         "strips.total"),
        # Strips wider than the cloth that they are cut from.
        ("bias", {"rectangle": {"width": "9 in", "length": "40 in", "strip": "10 in"}}, "rectangle.strip"),
        ("bias", {"strips": {"total": "38 in", "strip": "28 in", "cloth_width": "27 in"}}, "strips.strip"),
        ("bias", {"square": {"total": "1 in", "strip": "20 in"}}, "square.strip"),
        ("skirt", {"circle": {"waist": "2 in", "length": "40 in", "allowance": "1 in"}}, "circle.allowance"),
        (
            "skirt",
            {"gores": {"waist": "30 in", "hip": "40 in", "hem": "90 in", "length": "40 in", "shares": [
                {"waist": 0.5, "hip": 0.5, "hem": 0.5},
                {"waist": 0.5, "hip": 0.5, "hem": 0.5, "length": "7 in"},
            ]}},
            "gores.shares[1]",
        ),
        (
            "fullness",
            {"gathers": {"finished": "9 in", "ratio": 2,
                         "strips": {"cloth_width": "1 in", "depth": "2 in", "join": "1 in"}}},
            "gathers.strips.join",
        ),
        ("skirt", {"circle": {"waist": "26 in", "length": "40 in", "part": 0}}, "circle.part"),
        ("skirt", {"support": {"heights": [{"place": 0, "height": "40 in"}]}}, "support.heights"),
        (
            "skirt",
            {"gores": {"waist": "30 in", "hip": "40 in", "hem": "20 in", "length": "40 in", "number": 6}},
            "gores.hem",
        ),
        ("bias", {"rectangle": {"width": "1/4 in", "length": "9 in", "strip": "2 in", "seam": "1/4 in"}},
         "rectangle.strip"),
        ("seams", {"seam": {"stretches": []}}, "seam.stretches"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_where_it_stands(command, table, where):
    assert faults(command, table)[0].split(":")[0] == where


def test_a_fault_is_told_on_standard_error_alone(tmp_path, capsys):
    bad = tmp_path / "bad.json"
    bad.write_text('{"pleats": {}')
    with pytest.raises(SystemExit) as left:
        call_command("fullness", str(bad))
    said = capsys.readouterr()
    assert (left.value.code, said.out) == (2, "")
    assert said.err.startswith("file: This is not JSON")


WORDS = ["1 in", "0 in", "x", "knife"]
KEYS = ["kind", "finished", "width", "depth", "number", "ratio", "shares", "waist", "length", "first"]
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.sampled_from(WORDS),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner),
    max_leaves=8,
)


@given(st.sampled_from([(command, key) for command in COMMANDS for key in of_command(command)]), JSON)
def test_whatever_a_file_holds_it_is_answered_or_its_faults_are_named(which, value):
    command, kind = which
    with suppress(Faults):
        json.dumps(reckoned(command, {kind: value}), allow_nan=False)
