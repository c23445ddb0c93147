"""Which seams of a garment may be altered unasked, those that come first in its kind of garment first."""

from collections.abc import Sequence

from catalogue.lengths.calculation.levels import LINES
from fitting.pattern.loading.facts import GarmentFacts, SeamFacts

# Never unasked: a fold, a front edge, an armhole, and what is no seam round the body.
NEVER = ("front edge", "centre", "armhole", "head", "shoulder", "neck", "hem", "waist", "fore arm",
         "hind arm", "sleeve", "strap", "skirt", "vent")  # fmt: skip
UNLESS_FIRST = ("centre back",)  # where the kind of garment is altered there
NEVER_OF_LIMB = ("armhole", "head", "hem", "fold", "vent", "wrist", "cuff")
# By the last letters of what the garment is called: the words of its seams, the first of them first. Common
# practice, no source.
BY_KIND = (
    (("petticoat", "skirt"), ("side", "back")),
    (("trousers", "breeches", "drawers", "pantaloons"), ("seat", "side")),
    (("waistcoat",), ("side", "under-arm", "back")),
    (("coat",), ("side body", "centre back", "side", "back")),
)
OF_TRUNK = ("side", "under-arm", "back")
OF_LIMB = ("hind arm", "back of sleeve", "inside leg", "inseam", "side")


def seams_to_alter(known: GarmentFacts) -> tuple[list[SeamFacts], list[SeamFacts]]:
    """Those of the trunk, and those of arms or legs, each in the order in which they take a change."""
    first = next((words for kinds, words in BY_KIND if known.kind.endswith(kinds)), OF_TRUNK)
    trunk, limb = [], []
    for seam in known.seams:
        if seam.is_eased:
            continue
        if _is_of_limb(seam, known):
            if not seam.is_one_edge and not _is_named(seam, NEVER_OF_LIMB):
                limb.append(seam)
        elif _is_named(seam, UNLESS_FIRST):
            if any(word in first for word in UNLESS_FIRST):
                trunk.append(seam)
        elif not seam.is_one_edge and not _is_named(seam, NEVER):
            trunk.append(seam)
    return _ranked(trunk, first), _ranked(limb, OF_LIMB)


def _is_of_limb(seam: SeamFacts, known: GarmentFacts) -> bool:
    """Whether both its pieces are read at levels of an arm or a leg alone."""
    read = [known.widths_mm.get(piece, {}) for piece in (seam.piece_a, seam.piece_b)]
    return all(lines and all(LINES[line].has_sides for line in lines) for lines in read)


def _is_named(seam: SeamFacts, words: Sequence[str]) -> bool:
    return any(word in f"{seam.edge_a} {seam.edge_b}" for word in words)


def _ranked(seams: Sequence[SeamFacts], first: Sequence[str]) -> list[SeamFacts]:
    """By the first word that its name holds; those that hold none come last, as the plate has them."""

    def rank(seam: SeamFacts) -> int:
        # A side back seam is one of the back.
        words = (at for at, word in enumerate(first) if _is_named(seam, (word,)) and not _is_back(seam, word))
        return next(words, len(first))

    return sorted(seams, key=rank)


def _is_back(seam: SeamFacts, word: str) -> bool:
    return word == "side" and _is_named(seam, ("side back", "side front"))
