"""An outline of many points wrapped in one of few: what lies clear of the wrapper lies clear of the piece.

Packing slows with every point, and gains nothing from those that stray by less than a chalk line. The piece
itself keeps all of its points: where a lay is judged, drawn and told, it is by them.
"""

from shapely import Polygon, box

from fitting.laying.calculation.piece import Outline, ring

CHALK_MM = 0.1  # a wrapper reaches no farther from the piece
FEW_POINTS = 40  # not worth wrapping
_STRAY_MM = 0.04  # chords may cut in so far, and the wrapper is drawn as far out again
_MITRE = 1.5


def wrapped(outline: Outline) -> Outline:
    """The outline, or one of fewer points round it, within the same box and within `CHALK_MM` of it."""
    exact = Polygon(outline)
    straight = exact.simplify(0)
    if len(straight.exterior.coords) <= FEW_POINTS:
        return outline if len(outline) <= FEW_POINTS else ring(straight)
    drawn_out = exact.simplify(_STRAY_MM).buffer(_STRAY_MM, join_style="mitre", mitre_limit=_MITRE)
    # Pieces that fill the cloth side by side must do so wrapped.
    wrapper = drawn_out.intersection(box(*exact.bounds))
    return ring(wrapper) if isinstance(wrapper, Polygon) and wrapper.covers(exact) else outline
