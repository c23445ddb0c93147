"""Every sum tried on edge values: each is answered, finite and at once, or refused in a sentence."""

import json
import math
from collections.abc import Callable
from contextlib import suppress
from dataclasses import asdict, is_dataclass
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation import seam_match
from fitting.pattern.calculation.limits import MOST_PARTS, counted
from fitting.pattern.calculation.sums import (
    bias,
    boning,
    circle,
    fastening,
    gathers,
    sewing,
    shares,
    strips,
    support,
    tiers,
)
from fitting.pattern.calculation.sums.pleats import Pleat, PleatGivens, pleats
from fitting.pattern.calculation.sums.tucks import TuckGivens, tucks
from tests.examples import examples

EDGES = (0.0, -1.0, 1e-9, 0.0001, 1.0, 25.4, 1000.0, 1e6, 1e12, 1e308, math.inf, -math.inf, math.nan)


def _lace(length: float, spacing: float, gap: float, hole: float) -> float:
    row = fastening.even_row(length, spacing_mm=spacing)
    across = fastening.between_holes_mm(gap_mm=gap, from_edges_mm=[hole, hole])
    return fastening.crossed_lace_mm(row, across_mm=across) + fastening.spiral_lace_mm(row, across_mm=across)


def _skirt(waist: float, hem: float, length: float, hip_depth: float) -> list[Any]:
    girths = {"waist_mm": waist, "hip_mm": 1000.0, "hem_mm": hem}
    made = shares.gores(shares.equal_shares(6), **girths, length_mm=length, hip_depth_mm=hip_depth)
    return [*made[0].piece.outline(), made[0].hip_room_mm, made[0].piece.hem_curve_mm]


def _circle(waist: float, length: float, part: float, allowance: float) -> list[Any]:
    made = circle.circle_skirt(waist_mm=waist, length_mm=length, part=part, allowance_mm=allowance)
    return [made.chalk_inner_mm, made.chalk_outer_mm, *made.seam_line.outline()]


def _support(front: float, back: float, clearance: float, train: float) -> list[float]:
    heights = [(at / 4, front * (1 - at / 4) + back * at / 4) for at in range(5)]
    made = support.skirt_lengths(heights, clearance_mm=clearance, train=support.Train(length_mm=train))
    return [made.at(0.3), made.longest_mm, made.cut_away_at_top(0.6)]


def _notches(first: float, second: float, every: float) -> tuple[Any, ...]:
    stretch = seam_match.Stretch(name="side", longer_mm=first, shorter_mm=second)
    return seam_match.notches(seam_match.SeamMatch(name="seam", stretches=(stretch,)), every_mm=every)


def _sleeve(front: float, back: float, gathered: float, into: float) -> Any:
    heads = {"head_front_mm": front, "head_back_mm": back, "armhole_front_mm": front, "armhole_back_mm": back}
    return seam_match.sleeve_seam(**heads, gathered_mm=gathered, gathered_into_mm=into)


def _one_strip(width: float, length: float, strip: float, seam: float) -> float:
    return bias.continuous_length_mm(width_mm=width, length_mm=length, strip_mm=strip, seam_mm=seam)


SUMS: dict[str, tuple[Callable[..., Any], int]] = {
    "one strip": (_one_strip, 4),
    "square": (lambda a, b, c, d: bias.square_for_mm(total_mm=a, strip_mm=b, seam_mm=c, step_mm=d), 4),
    "strips": (lambda a, b, c, d: bias.bias_strips(a, cloth_width_mm=b, strip_mm=c, seam_mm=d), 4),
    "boning": (lambda a, b, c: boning.boning([a, b], bone_width_mm=c), 3),
    "row": (lambda a, b, c, d: fastening.even_row(a, spacing_mm=b, first_mm=c, last_mm=d), 4),
    "two rows": (lambda a, b, c: fastening.row_with_one_at(a, spacing_mm=b, at_mm=c), 3),
    "lace": (_lace, 4),
    "piping": (lambda a, b: bias.piping_strip_mm(cord_mm=a, allowance_mm=b), 2),
    "gathers": (lambda a, b: gathers.gathers(finished_mm=a, ratio=b), 2),
    "gathers from flat": (lambda a, b: gathers.gathers(flat_mm=a, ratio=b), 2),
    "joined strips": (lambda a, b, c, d: strips.strips(a, cloth_width_mm=b, depth_mm=c, join_mm=d), 4),
    "tiers": (lambda a, b, c: tiers.tiers(top_mm=a, hem_mm=b, ratio=c), 3),
    "forty tiers": (lambda a, b: tiers.tiers(top_mm=a, ratio=b, number=40), 2),
    "pleats by width": (lambda a, b, c: pleats(Pleat.BOX, PleatGivens(finished=a, width=b, depth=c)), 3),
    "pleats by flat": (lambda a, b, c: pleats(Pleat.KNIFE, PleatGivens(finished=a, flat=b, depth=c)), 3),
    "cartridge pleats": (lambda a, b, c: pleats(Pleat.CARTRIDGE, PleatGivens(flat=a, width=b, depth=c)), 3),
    "tucks": (lambda a, b, c, d: tucks(TuckGivens(finished=a, spacing=b, depth=c), edge_mm=d), 4),
    "tucks by flat": (lambda a, b, c, d: tucks(TuckGivens(flat=a, spacing=b, depth=c), edge_mm=d), 4),
    "sewing": (lambda a, b, c: sewing.timed(sample_mm=a, minutes=b, stitches_per_inch=c), 3),
    "notches": (_notches, 3),
    "sleeve": (_sleeve, 4),
    "circle": (_circle, 4),
    "gores": (_skirt, 4),
    "support": (_support, 4),
}


def as_json(value: Any) -> str:
    """Raises ValueError where a number in it is none."""
    parts = value if isinstance(value, list | tuple) else [value]
    return json.dumps([asdict(one) if is_dataclass(one) else one for one in parts], allow_nan=False)


@pytest.mark.parametrize("name", SUMS)
@settings(max_examples=examples(100), deadline=None)
@given(data=st.data())
def test_a_sum_is_answered_in_figures_or_in_sentences(name, data):
    reckon, count = SUMS[name]
    values = data.draw(st.lists(st.sampled_from(EDGES), min_size=count, max_size=count))
    with suppress(Faults):
        as_json(reckon(*values))


def test_a_count_past_counting_is_refused():
    assert counted(MOST_PARTS, where="width", what="pleats") == MOST_PARTS
    for count in (MOST_PARTS + 1, math.inf, math.nan):
        with pytest.raises(Faults) as refused:
            counted(count, where="width", what="pleats")
        assert str(refused.value).startswith("width: This comes to more than 2,000 pleats")
