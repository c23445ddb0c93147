"""A sleeve head walked against its armhole: front and back apart from the pitch points, the rest beneath.

The pitch points are the notches farthest from the top on either side: of the armhole from the shoulder seam,
of the head from its own top. So nothing more is traced for them. A sleeve of two pieces without such notches
is pitched at its seams. Notches nearer to the top, one on each side of both, part what is gathered over it
from what is plain.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.seam_match import SeamMatch, Stretch
from fitting.pattern.calculation.seam_walk import (
    SeamSide,
    SeamTolerance,
    WalkedSeam,
    named,
    sewn_pairs,
    side_of,
    stretch,
    traced_edges,
    walk_seam,
)

FRONT, BACK, SHOULDER = ("front", "fore"), ("back", "hind"), "shoulder"
START = "front pitch point"


@dataclass(frozen=True, slots=True, kw_only=True)
class RingNotches:
    """The notches of a ring by their distance from its top, along front and back: the pitch points last."""

    front_mm: tuple[float, ...]
    back_mm: tuple[float, ...]
    round_mm: float

    @property
    def under_mm(self) -> float:
        """What lies beneath the pitch points."""
        return self.round_mm - self.front_mm[-1] - self.back_mm[-1]


class NotPitched(ValueError):
    """Where the pitch points are missing; `sentence` says what to mark."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def walk_seams(
    shapes: Sequence[TracedShape], joins: Sequence[GradingJoin], allowed: Sequence[SeamTolerance]
) -> tuple[WalkedSeam, ...]:
    """Every seam, with what is allowed for it. A sleeve that is not pitched is compared as a whole."""
    edges, sewn = traced_edges(shapes), sewn_pairs(joins)
    found = []
    for join, allowance in zip(joins, allowed, strict=True):
        one, other = (side_of(run, edges, sewn) for run in (join.one, join.other))
        if not is_sleeve(join):
            found.append(walk_seam(join, one, other, allowance))
            continue
        try:
            found.append(walk_sleeve(join, one, other, allowance))
        except NotPitched as fault:
            whole = walk_seam(join, replace(one, is_ring=True), other, allowance)
            found.append(replace(whole, note=fault.sentence))
    return tuple(found)


def is_sleeve(join: GradingJoin) -> bool:
    """Whether a seam sets a head into an armhole."""
    one, other = ([edge for _, edge in run] for run in (join.one, join.other))
    return all("head" in edge for edge in one) and all("armhole" in edge for edge in other)


def walk_sleeve(join: GradingJoin, head: SeamSide, armhole: SeamSide, allowed: SeamTolerance) -> WalkedSeam:
    """From the front pitch point over the top to the back one, and beneath.

    Ease lies over the top alone (common practice, no source). Raises NotPitched.
    """
    of_head, of_armhole = head_from_top(head), armhole_from_top(armhole)
    stretches = tuple(_stretches(of_head, of_armhole, allowed))
    seam = SeamMatch(name=named(join), stretches=stretches)
    return WalkedSeam(join=join, one=head, other=armhole, seam=seam, start=START)


def _stretches(head: RingNotches, armhole: RingNotches, allowed: SeamTolerance) -> list[Stretch]:
    marked = min(len(head.front_mm), len(head.back_mm), len(armhole.front_mm), len(armhole.back_mm))
    gathered = [(ring.front_mm[0], ring.back_mm[0]) if marked > 1 else (0.0, 0.0) for ring in (head, armhole)]
    (head_front, head_back), (hole_front, hole_back) = gathered
    upper_mm = armhole.front_mm[-1] + armhole.back_mm[-1] - hole_front - hole_back
    # Between its notches the top is gathered, and the plain parts beside them are not.
    plain = SeamTolerance(ease_mm=allowed.ease_mm) if marked > 1 else allowed
    made = []
    for name, longer_mm, shorter_mm in (
        ("front", head.front_mm[-1] - head_front, armhole.front_mm[-1] - hole_front),
        ("back", head.back_mm[-1] - head_back, armhole.back_mm[-1] - hole_back),
    ):
        share = shorter_mm / upper_mm
        made.append(stretch(name, longer_mm, shorter_mm, plain, share=share, is_part=True))
    if marked > 1:
        top = (head_front + head_back, hole_front + hole_back)
        ratio = allowed.ratio if allowed.ratio is not None else top[0] / top[1]
        made.insert(1, Stretch(name="top", longer_mm=top[0], shorter_mm=top[1], ratio=ratio))
    made.append(Stretch(name="under", longer_mm=head.under_mm, shorter_mm=armhole.under_mm))
    return made


def armhole_from_top(armhole: SeamSide) -> RingNotches:
    """From the shoulder seam down the front and down the back."""
    ring = from_shoulder(armhole)
    whole, notches = ring.length_mm, ring.notches_mm
    front = tuple(at for at in notches if at < whole / 2)
    back = tuple(whole - at for at in reversed(notches) if at >= whole / 2)
    if not front or not back:
        raise NotPitched("Mark the pitch points as notches on the armhole of front and back.")
    return RingNotches(front_mm=front, back_mm=back, round_mm=whole)


def from_shoulder(armhole: SeamSide) -> SeamSide:
    """The ring walked from the shoulder seam, its front first."""
    if not armhole.is_ring:
        raise NotPitched("The seams round the armhole, the shoulder among them, are not all there.")
    at = next((at for at, edge in enumerate(armhole.edges) if SHOULDER in edge.before), None)
    if at is None:
        raise NotPitched("No shoulder seam meets the armhole, so its top is not known.")
    ring = armhole.starting_at(at)
    is_back_first = _says(BACK, ring.edges[0].piece) or _says(FRONT, ring.edges[-1].piece)
    return ring.turned if is_back_first else ring


def head_from_top(head: SeamSide) -> RingNotches:
    """From the top of the head along its front and its back."""
    upper = upper_head(head)
    notches, at_seams = upper.notches_mm, len(head.edges) > 1 and len(upper.notches_mm) < 2
    if len(notches) < 2 and not at_seams:
        raise NotPitched("Mark the pitch points as notches on the sleeve head.")
    top = notches[len(notches) // 2] if len(notches) % 2 else _highest_mm(upper)
    pitched = (0.0, *notches, upper.length_mm) if at_seams else notches
    front = tuple(top - at for at in reversed(pitched) if at < top)
    back = tuple(at - top for at in pitched if at > top)
    if not front or not back:
        raise NotPitched("The sleeve head has its notches on one side of its top.")
    return RingNotches(front_mm=front, back_mm=back, round_mm=head.length_mm)


def upper_head(head: SeamSide) -> SeamSide:
    """The edge over the top, walked from its front."""
    over = next((edge for edge in head.edges if "upper" in edge.name), None)
    edge = over or max(head.edges, key=lambda one: one.length_mm)
    is_turned = _says(BACK, edge.before) or _says(FRONT, edge.after)
    return SeamSide(edges=(edge.turned if is_turned else edge,))


def _highest_mm(side: SeamSide) -> float:
    """How far along a line the point lies that is highest with the grain upright."""
    line = side.edges[0].line
    at = min(range(len(line)), key=lambda index: line[index].imag)
    drawn = _length(line)
    return _length(line[: at + 1]) / drawn * side.length_mm


def _length(line: Sequence[complex]) -> float:
    return sum(abs(b - a) for a, b in pairwise(line))


def _says(words: Sequence[str], name: str) -> bool:
    return any(word in name for word in words)
