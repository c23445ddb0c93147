"""Whether two edges that are sewn together match, and where the notches come along both.

An edge may be longer by a stated ease, or gathered by a stated ratio. What differs otherwise is flagged,
never refused: the maker knows more than the tape.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check, counted

# Edges this near are one length: what chalk and cutting make of them; common practice, no source.
MATCHES_MM = 3.2


class SeamJoin(StrEnum):
    MATCHES = "matches"
    EASED = "eased"
    GATHERED = "gathered"
    DIFFERS = "differs"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a seam between two notches: the edge that is eased or gathered, and the one it is sewn to.

    `ease_mm` is the difference wanted, `ratio` that of gathers; a stretch has one of the two at most.
    """

    name: str
    longer_mm: float
    shorter_mm: float
    ease_mm: float = 0.0
    ratio: float | None = None

    @property
    def difference_mm(self) -> float:
        return self.longer_mm - self.shorter_mm

    @property
    def off_mm(self) -> float:
        """How much longer the first edge is than the second asks for; negative is shorter."""
        wanted_mm = self.shorter_mm * self.ratio if self.ratio is not None else self.shorter_mm + self.ease_mm
        return self.longer_mm - wanted_mm

    @property
    def joined(self) -> SeamJoin:
        if abs(self.off_mm) > MATCHES_MM:
            return SeamJoin.DIFFERS
        if self.ratio is not None:
            return SeamJoin.GATHERED
        return SeamJoin.EASED if self.ease_mm else SeamJoin.MATCHES


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamMatch:
    """A seam stretch by stretch: between pitch points, plain and gathered parts apart."""

    name: str
    stretches: tuple[Stretch, ...]

    @property
    def longer_mm(self) -> float:
        return sum(stretch.longer_mm for stretch in self.stretches)

    @property
    def shorter_mm(self) -> float:
        return sum(stretch.shorter_mm for stretch in self.stretches)

    @property
    def flagged(self) -> tuple[Stretch, ...]:
        return tuple(stretch for stretch in self.stretches if stretch.joined is SeamJoin.DIFFERS)


def sleeve_seam(
    *,
    head_front_mm: float,
    head_back_mm: float,
    armhole_front_mm: float,
    armhole_back_mm: float,
    ease_front_mm: float = 0.0,
    ease_back_mm: float = 0.0,
    gathered_mm: float = 0.0,
    gathered_into_mm: float = 0.0,
    head_under_mm: float = 0.0,
    armhole_under_mm: float = 0.0,
) -> SeamMatch:
    """Sleeve head against armhole: front and back from the pitch points, what is gathered over the top apart,
    what lies beneath the pitch points apart too.

    `gathered_mm` of the head goes into `gathered_into_mm` of the armhole, half of each from front and back.
    Raises Faults where more is gathered than there is.
    """
    check({"head_front": head_front_mm, "head_back": head_back_mm})
    check({"armhole_front": armhole_front_mm, "armhole_back": armhole_back_mm})
    apart = {"gathered": gathered_mm, "gathered_into": gathered_into_mm}
    apart |= {"head_under": head_under_mm, "armhole_under": armhole_under_mm}
    check(apart, may_be_nothing=apart)
    fronts = (head_front_mm - gathered_mm / 2, armhole_front_mm - gathered_into_mm / 2)
    backs = (head_back_mm - gathered_mm / 2, armhole_back_mm - gathered_into_mm / 2)
    if min(*fronts, *backs) < 0 or (gathered_mm > 0) != (gathered_into_mm > 0):
        raise Faults([Fault("gathered", "More is gathered than the head or the armhole has beside the top.")])
    stretches = [
        Stretch(name="front", longer_mm=fronts[0], shorter_mm=fronts[1], ease_mm=ease_front_mm),
        Stretch(name="back", longer_mm=backs[0], shorter_mm=backs[1], ease_mm=ease_back_mm),
    ]
    if gathered_mm:
        ratio = gathered_mm / gathered_into_mm
        stretches.insert(
            1, Stretch(name="top", longer_mm=gathered_mm, shorter_mm=gathered_into_mm, ratio=ratio)
        )
    if head_under_mm or armhole_under_mm:
        stretches.append(Stretch(name="under", longer_mm=head_under_mm, shorter_mm=armhole_under_mm))
    return SeamMatch(name="sleeve head", stretches=tuple(stretches))


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """Where a notch comes, from the start of each edge; `ends` names the stretch that it ends, if it does."""

    ends: str
    on_longer_mm: float
    on_shorter_mm: float


def notches(seam: SeamMatch, *, every_mm: float | None = None) -> tuple[Notch, ...]:
    """Between stretches; with `every_mm` also within them, no farther apart on the shorter edge.

    Within a stretch both edges are divided alike, so that ease and gathers lie evenly. Raises Faults where
    they would lie so near that nobody would cut them.
    """
    edges = {"first": seam.longer_mm, "second": seam.shorter_mm}
    check({"notches_every": every_mm} | edges, may_be_nothing=edges)
    if every_mm is not None:
        counted(seam.shorter_mm / every_mm, where="notches_every", what="notches")
    placed = list(_within(seam.stretches, every_mm))
    return tuple(placed[:-1])


def _within(stretches: Iterable[Stretch], every_mm: float | None) -> Iterable[Notch]:
    longer = shorter = 0.0
    for stretch in stretches:
        parts = 1 if every_mm is None else max(1, -int(-stretch.shorter_mm // every_mm))
        for part in range(1, parts + 1):
            yield Notch(
                ends=stretch.name if part == parts else "",
                on_longer_mm=longer + stretch.longer_mm * part / parts,
                on_shorter_mm=shorter + stretch.shorter_mm * part / parts,
            )
        longer, shorter = longer + stretch.longer_mm, shorter + stretch.shorter_mm
