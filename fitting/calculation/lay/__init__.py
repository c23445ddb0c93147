"""The lay: pieces on a cloth of a given width, and the length to buy.

Read in this order: `cloth` and `piece` say what is asked for; `piecing` cuts what is wider than the cloth;
`strip` holds pieces as they lie; `boxes` packs their boxes, at once and always; `nesting` has them nested by
`nest` in a process of its own; `fold` lays on folded cloth; `settling` slides pieces together, free of
overlap; `wrapping` spares all of these the finest points; `lay_out` keeps the
shortest lay that `strip` finds sound.
"""

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Lay, Order, lay_out
from fitting.laying.calculation.nesting import Progress
from fitting.laying.calculation.piece import LayPiece, OutlineNotUsable, cut_outline, read_outline
from fitting.laying.calculation.piecing import Piecing
from fitting.laying.calculation.strip import Placement, placed_outline

__all__ = [
    "Cloth",
    "Direction",
    "Lay",
    "LayPiece",
    "Order",
    "OutlineNotUsable",
    "Piecing",
    "Placement",
    "Progress",
    "cut_outline",
    "lay_out",
    "placed_outline",
    "read_outline",
]
