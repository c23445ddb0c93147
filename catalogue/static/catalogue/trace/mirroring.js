// A piece turned over at its fold, the whole of a half that was drawn to it, and a copy of another piece.

import { flipping, mirrored, unfolded } from "./outline.js";

const place = ([x, y]) => ({ x, y });
const NEAR_MM = 5; // a fold that was drawn by itself runs this near to the side that it stands for

const movedBy = (flip) => (mark) => ({
  ...mark,
  points: mark.points.map((point) => {
    const { x, y } = flip(place(point));
    return [x, y];
  }),
});

// Its fold: as it was marked, or the side that leaves the chosen point.
function foldOf({ nodes, marks }, index) {
  const fold = marks.find((mark) => mark.kind === "fold");
  return fold ? fold.points.map(place) : [nodes[index], nodes[(index + 1) % nodes.length]];
}

export function turnedOver(piece, index) {
  const fold = foldOf(piece, index);
  return { nodes: mirrored(piece.nodes, ...fold), marks: piece.marks.map(movedBy(flipping(...fold))) };
}

// Folded open at the side that lies along its fold, else at the one that leaves the chosen point. What is sewn on
// one half is sewn on the other; its grain and its lengths are measured once.
export function wholeOf(piece, index) {
  const { nodes, marks } = piece;
  const fold = foldOf(piece, index);
  const flip = flipping(...fold);
  const off = (node) => Math.hypot(flip(node).x - node.x, flip(node).y - node.y) / 2;
  const along = nodes.findIndex((node, at) => off(node) < NEAR_MM && off(nodes[(at + 1) % nodes.length]) < NEAR_MM);
  const at = along < 0 ? index : along;
  const [start, end] = [nodes[at], nodes[(at + 1) % nodes.length]];
  const twice = marks.filter((mark) => ["notch", "dart", "pleat"].includes(mark.kind));
  return {
    nodes: unfolded(nodes, at),
    marks: [...marks.filter((mark) => mark.kind !== "fold"), ...twice.map(movedBy(flipping(start, end)))],
  };
}

export function copied({ nodes, marks }) {
  return { nodes: nodes.map((node) => ({ ...node })), marks: marks.map((mark) => ({ ...mark })) };
}
