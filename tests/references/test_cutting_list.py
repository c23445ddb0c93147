import pytest

from catalogue.lengths.calculation.levels import LINES
from catalogue.references.calculation import CUTTING_LISTS, list_for


@pytest.mark.parametrize("cutting_list", CUTTING_LISTS.values(), ids=CUTTING_LISTS)
def test_every_list_reads_a_girth_along_lines_that_exist(cutting_list):
    assert "girth" in [LINES[key].kind for key in cutting_list.lines]
    names = [piece.name for piece in cutting_list.pieces]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("named", "kind"),
    [
        ("back-laced stays", "stays"),
        ("Sleeved waistcoat", "waistcoat"),
        ("linen breeches", "breeches"),
        ("two petticoats", "petticoat"),
        ("shirt", "shift or shirt"),
        ("pair of sleeves", "sleeve"),
        ("fichu", None),
    ],
)
def test_a_garment_finds_its_list_by_the_last_word_that_names_one(named, kind):
    found = list_for(named)
    assert (found and found.kind) == kind
