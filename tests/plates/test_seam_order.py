import pytest

from catalogue.plates.calculation.seam_order import ListedPiece, part_of, propose_seams


def listed(*names: str, **given) -> list[ListedPiece]:
    return [
        ListedPiece(key=number, name=name, **{"cloth": "outer", **given}) for number, name in enumerate(names)
    ]


def in_words(pieces: list[ListedPiece]) -> list[str]:
    return [
        f"{seam.piece_a.name} {seam.edge_a} – {seam.piece_b.name} {seam.edge_b}"
        for seam in propose_seams(pieces)
    ]


def test_a_bodice_with_its_sleeves():
    assert in_words(listed("front", "side back", "back", "upper sleeve", "under sleeve")) == [
        "front back edge – side back front edge",
        "side back back edge – back front edge",
        "front shoulder – back shoulder",
        "back centre back – back centre back",
        "upper sleeve forearm edge – under sleeve forearm edge",
        "upper sleeve hindarm edge – under sleeve hindarm edge",
        "upper sleeve sleeve head – front armhole",
    ]


def test_a_back_on_the_fold_has_no_seam_down_its_middle():
    front, back = listed("front", "back")
    folded = ListedPiece(key=1, name="back", cloth="outer", cut=1, on_fold=True)
    assert "back centre back – back centre back" in in_words([front, back])
    assert "back centre back – back centre back" not in in_words([front, folded])


def test_a_sleeve_in_one_piece_closes_on_itself():
    assert in_words(listed("sleeve")) == ["sleeve forearm edge – sleeve hindarm edge"]


def test_lining_is_not_sewn_to_the_outer_by_order():
    pieces = [*listed("front", "back"), *listed("front", "back", cloth="lining")]
    assert all(seam.piece_a.cloth == seam.piece_b.cloth for seam in propose_seams(pieces))


@pytest.mark.parametrize(
    ("name", "part"),
    [
        ("forepart", "body"),
        ("Side gore", "skirt"),
        ("upper sleeve", "sleeve"),
        ("waistband", ""),
        ("cuff", ""),
    ],
)
def test_the_part_is_told_by_the_name(name, part):
    assert part_of(name) == part


@pytest.mark.parametrize("names", [(), ("front",), ("collar", "cuff")])
def test_nothing_is_proposed_where_nothing_lies_side_by_side(names):
    assert propose_seams(listed(*names)) == ()
