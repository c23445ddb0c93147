"""The number of each notch: the two that meet in a seam bear one.

They are counted seam by seam, from the end where the seam is walked from. A notch that meets none bears a
number of its own, after all the others.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.seam_walk import WalkedSeam
from fitting.pattern.calculation.sleeve_walk import (
    START,
    armhole_from_top,
    from_shoulder,
    head_from_top,
    upper_head,
)

NotchKey = tuple[str, int]  # a piece, and which of its marks


def notch_numbers(shapes: Sequence[TracedShape], seams: Iterable[WalkedSeam]) -> dict[str, tuple[int, ...]]:
    """By piece, in the order of its notches among its marks. `seams`: these shapes, walked."""
    keys = [
        (shape.name, at) for shape in shapes for at, mark in enumerate(shape.marks) if mark.kind == "notch"
    ]
    numbers = _numbered(keys, [pair for seam in seams for pair in _pairs(seam)])
    return {shape.name: tuple(numbers[key] for key in keys if key[0] == shape.name) for shape in shapes}


def _numbered(keys: Sequence[NotchKey], pairs: Iterable[tuple[NotchKey, NotchKey]]) -> Mapping[NotchKey, int]:
    numbers: dict[NotchKey, int] = {}
    last = 0
    for one, other in pairs:
        if one not in numbers and other not in numbers:
            last += 1
            numbers[one] = numbers[other] = last
    for key in keys:
        if key not in numbers:
            last += 1
            numbers[key] = last
    return numbers


def _pairs(seam: WalkedSeam) -> Iterator[tuple[NotchKey, NotchKey]]:
    """The notches that meet; none on a stretch whose two sides have not as many."""
    if seam.start == START:
        yield from _pairs_of_sleeve(seam)
    elif not seam.note and len(seam.one.notches) == len(seam.other.notches):
        yield from zip(seam.one.notches, seam.other.notches, strict=True)


def _pairs_of_sleeve(seam: WalkedSeam) -> Iterator[tuple[NotchKey, NotchKey]]:
    """From the top of the head and from the shoulder seam, down the front and down the back."""
    head, armhole = upper_head(seam.one).notches, from_shoulder(seam.other).notches
    if len(head) < 2:  # pitched at its seams
        return
    of_head, of_armhole = head_from_top(seam.one), armhole_from_top(seam.other)
    fronts = head[: len(of_head.front_mm)][::-1], armhole[: len(of_armhole.front_mm)]
    backs = head[-len(of_head.back_mm) :], armhole[len(of_armhole.front_mm) :][::-1]
    for on_head, on_armhole in (fronts, backs):
        if len(on_head) == len(on_armhole):
            yield from zip(on_head, on_armhole, strict=True)
