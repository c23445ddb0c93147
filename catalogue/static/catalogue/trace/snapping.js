// To a point of any piece, then to a side, then to the grid, where that is asked for and near.

import { distance } from "./curve.js";
import { nearestOn } from "./outline.js";

export function snapped(drawing, { snaps, snapsToGrid, square, tool }, place, near, grip = null) {
  const best = snaps ? (nearestPoint(drawing, place, near, grip) ?? nearestSide(drawing, place, near, grip, tool)) : null;
  if (best) return { x: best.x, y: best.y };
  if (snapsToGrid && square) {
    const crossing = { x: Math.round(place.x / square) * square, y: Math.round(place.y / square) * square };
    if (distance(crossing, place) <= near) return crossing;
  }
  return place;
}

function nearestPoint(drawing, place, near, grip) {
  const held = grip?.of === "node" ? drawing.nodes[grip.index] : null;
  let best = null;
  for (const { nodes } of drawing.state.pieces) {
    for (const node of nodes) {
      const far = distance(node, place);
      if (node !== held && far <= (best?.far ?? near)) best = { far, x: node.x, y: node.y };
    }
  }
  return best;
}

// Sides of the piece itself too, but those that move with the point: of its own two, and of the one that a new
// point is about to part.
function nearestSide(drawing, place, near, grip, tool) {
  const count = drawing.nodes.length;
  const own = grip?.of === "node" ? grip.index : !grip && tool === "trace" ? (drawing.selected ?? count - 1) : null;
  const moves = (index) => own !== null && (index === own || index === (own + count - 1) % count);
  let best = null;
  for (const { piece, nodes } of drawing.state.pieces) {
    if (nodes.length < 2) continue;
    const isLeftOut = piece === drawing.piece ? moves : undefined;
    const found = nearestOn(nodes, place, best?.far ?? near, isLeftOut);
    if (found) best = { far: found.far, ...found.point };
  }
  return best;
}
