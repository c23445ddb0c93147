"""Which edges are probably sewn together, from the order in which a plate's pieces are listed.

A list runs from the centre front to the centre back, then come sleeve and skirt: neighbours share a seam.
That is a proposal from the order alone, no evidence: whoever takes it says how each seam is known.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

# Read top to bottom: the words of a name tell the part. A part not sewn in the round is joined by hand.
_PARTS = (
    ("sleeve", ("sleeve",)),
    ("skirt", ("skirt", "gore", "panel")),
    ("", ("band", "collar", "cuff", "strap", "facing", "pocket", "gusset", "flap", "lace", "tab", "busk")),
)
BODY = "body"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPiece:
    """A piece as it stands in the list; `key` is whatever the caller knows it by."""

    key: int
    name: str
    cloth: str
    cut: int = 2
    on_fold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedSeam:
    piece_a: ListedPiece
    edge_a: str
    piece_b: ListedPiece
    edge_b: str


def part_of(name: str) -> str:
    """The part of a garment that a piece of this name belongs to; "" for what is set on to another part."""
    words = name.casefold()
    return next((part for part, signs in _PARTS if any(sign in words for sign in signs)), BODY)


def propose_seams(pieces: Sequence[ListedPiece]) -> tuple[ProposedSeam, ...]:
    """Seams between neighbours of one part and one cloth, then at the shoulder, the back and the armhole."""
    proposed: list[ProposedSeam] = []
    by_cloth = sorted(pieces, key=lambda piece: piece.cloth)
    for _, of_cloth in groupby(by_cloth, key=lambda piece: piece.cloth):
        parts: dict[str, list[ListedPiece]] = {}
        for piece in of_cloth:
            parts.setdefault(part_of(piece.name), []).append(piece)
        proposed += _body(parts.get(BODY, []))
        proposed += _sleeve(parts.get("sleeve", []), parts.get(BODY, []))
        proposed += _side_by_side(parts.get("skirt", []))
        proposed += _centre_back(parts.get("skirt", []))
    return tuple(proposed)


def _body(pieces: list[ListedPiece]) -> Iterator[ProposedSeam]:
    yield from _side_by_side(pieces)
    if len(pieces) > 1:
        yield _seam(pieces[0], "shoulder", pieces[-1], "shoulder")
    yield from _centre_back(pieces)


def _side_by_side(pieces: list[ListedPiece]) -> Iterator[ProposedSeam]:
    for towards_front, towards_back in pairwise(pieces):
        yield _seam(towards_front, "back edge", towards_back, "front edge")


def _centre_back(pieces: list[ListedPiece]) -> Iterator[ProposedSeam]:
    """The last piece, cut as a pair and not on a fold, is sewn to its own other half."""
    if len(pieces) > 1 and pieces[-1].cut == 2 and not pieces[-1].on_fold:
        yield _seam(pieces[-1], "centre back", pieces[-1], "centre back")


def _sleeve(sleeves: list[ListedPiece], body: list[ListedPiece]) -> Iterator[ProposedSeam]:
    if len(sleeves) > 1:
        for upper, under in pairwise(sleeves):
            yield _seam(upper, "forearm edge", under, "forearm edge")
            yield _seam(upper, "hindarm edge", under, "hindarm edge")
    elif sleeves:
        yield _seam(sleeves[0], "forearm edge", sleeves[0], "hindarm edge")
    if sleeves and body:
        yield _seam(sleeves[0], "sleeve head", body[0], "armhole")


def _seam(piece_a: ListedPiece, edge_a: str, piece_b: ListedPiece, edge_b: str) -> ProposedSeam:
    return ProposedSeam(piece_a=piece_a, edge_a=edge_a, piece_b=piece_b, edge_b=edge_b)
