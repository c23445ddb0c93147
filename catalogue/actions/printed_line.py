"""An outline laid on the line that is printed, in the picture that was sent."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from catalogue.measuring.calibration import Calibration as Map
from catalogue.measuring.outline import Node
from catalogue.measuring.printed_line import REACH_PX, onto_printed_line
from catalogue.models.trace import PlateScan
from catalogue.outlines import pixels_of
from catalogue.tiles import part_of

BESIDE_PX = int(4 * REACH_PX)  # of the picture, round about the outline


def laid_on_print(*, scan: PlateScan, nodes: list[Mapping[str, Any]], flat: Map) -> list[dict[str, Any]]:
    """Nodes as a page has them (millimetres) on the printed line. Raises GeometryNotUnderstood."""
    rows, _ = pixels_of({"nodes": nodes, "marks": []}, flat)
    if not rows:
        return []
    across, down = ([row[axis] for row in rows] for axis in ("x", "y"))
    left, top = (max(0, int(min(places)) - BESIDE_PX) for places in (across, down))
    right = min(scan.width, int(max(across)) + BESIDE_PX)
    bottom = min(scan.height, int(max(down)) + BESIDE_PX)
    if right <= left or bottom <= top:
        return list(map(dict, nodes))
    corner = complex(left, top)
    grey = np.asarray(part_of(scan.tile_folder, scan.size, (left, top, right, bottom)))
    traced = [
        Node(at=complex(row["x"], row["y"]) - corner, corner=row["corner"], curved=row["curved"])
        for row in rows
    ]
    laid = flat.to_mm([node.at + corner for node in onto_printed_line(traced, grey)])
    return [dict(node) | {"x": at.real, "y": at.imag} for node, at in zip(nodes, laid, strict=True)]
