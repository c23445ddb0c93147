// The outline through traced points, by the same rule as the server: a smooth point's tangent is that of the
// parabola through it and its two neighbours. A point is {x, y, corner, curved, edge} and never changed in place,
// so a side whose four points are still the same is still the same side.

import { atLeastFar, chord, distance, lengthOf, meetings, nearestOnSide, plus, sweptBy } from "./curve.js";

function smoothTangent(before, here, after) {
  const first = distance(before, here);
  const second = distance(here, after);
  if (!first || !second) return chord(before, after);
  const share = second / (first + second);
  const one = chord(before, here);
  const other = chord(here, after);
  return { x: share * one.x + (1 - share) * other.x, y: share * one.y + (1 - share) * other.y };
}

function tangentAt(before, here, after) {
  if (here.corner || !(before.curved || here.curved)) return null;
  if (before.curved && here.curved) return smoothTangent(before, here, after);
  return before.curved ? chord(here, after) : chord(before, here);
}

function sideThrough(before, start, end, after) {
  if (!start.curved) return [start, end];
  let leaving = tangentAt(before, start, end);
  let arriving = tangentAt(start, end, after);
  if (!leaving && !arriving) return [start, end];
  const straight = chord(start, end);
  leaving ??= { x: 2 * straight.x - arriving.x, y: 2 * straight.y - arriving.y };
  arriving ??= { x: 2 * straight.x - leaving.x, y: 2 * straight.y - leaving.y };
  const third = distance(start, end) / 3;
  return [start, plus(start, leaving, third), plus(end, arriving, -third), end];
}

const known = new WeakMap();

// The side that leaves a point.
export function sideOf(nodes, index) {
  const count = nodes.length;
  const around = [-1, 0, 1, 2].map((by) => nodes[(index + by + count) % count]);
  const held = known.get(nodes[index]);
  if (held && held.around.every((node, at) => node === around[at])) return held.side;
  const side = sideThrough(...around);
  known.set(nodes[index], { around, side });
  return side;
}

// The sides of a mark: the legs of a dart bow where it has points on them, as the sides of an outline do.
export function markSides({ kind, points }) {
  const places = points.map(([x, y]) => ({ x, y }));
  if (kind !== "dart" || points.length < 5) return places.slice(1).map((place, at) => [places[at], place]);
  const legs = points.length % 2 ? 2 : 4;
  const leg = Math.floor(points.length / legs);
  const nodes = places.map((place, at) => ({ ...place, corner: at % leg === 0, curved: true }));
  return nodes.slice(0, leg * legs).map((_, at) => sideOf(nodes, at));
}

// What a point of a mark is called: a dart with bowed legs has names of its own.
export const pointWord = (words, kind, count, at) => (words[`${kind} ${count}`] ?? words[kind])?.[at] ?? `point ${at + 1}`;

export const sidesOf = (nodes) => nodes.map((_, index) => sideOf(nodes, index));

export const aroundOf = (nodes) => sidesOf(nodes).reduce((sum, side) => sum + lengthOf(side), 0);

export const areaOf = (nodes) => Math.abs(sidesOf(nodes).reduce((sum, side) => sum + sweptBy(side), 0));

// Lengths of the named edges, those of one name together; the order is that round the piece.
export function edgesOf(nodes) {
  const found = new Map();
  const first = nodes.findIndex((node) => node.edge);
  if (first < 0) return found;
  let name = "";
  for (let step = 0; step < nodes.length; step += 1) {
    const index = (first + step) % nodes.length;
    name = nodes[index].edge || name;
    found.set(name, (found.get(name) ?? 0) + lengthOf(sideOf(nodes, index)));
  }
  return found;
}

// How much of a line lies within the outline.
export function widthAt(nodes, start, end) {
  const places = sidesOf(nodes).flatMap((side) => meetings(side, start, end));
  places.sort((a, b) => a - b);
  let width = 0;
  for (let index = 0; index + 1 < places.length; index += 2) {
    width += Math.max(0, Math.min(1, places[index + 1]) - Math.max(0, places[index]));
  }
  return width * distance(start, end);
}

// The place on any side, within reach, that is nearest to a point: {index, t, point, far}, or null.
export function nearestOn(nodes, point, reach, isLeftOut = () => false) {
  let best = null;
  sidesOf(nodes).forEach((side, index) => {
    if (isLeftOut(index) || atLeastFar(side, point) > (best?.far ?? reach)) return;
    const found = nearestOnSide(side, point);
    if (found.far <= (best?.far ?? reach)) best = { index, ...found };
  });
  return best;
}

export function holds(nodes, point) {
  const beyond = { x: point.x + 1, y: point.y };
  const right = sidesOf(nodes).flatMap((side) => meetings(side, point, beyond)).filter((far) => far > 0);
  return right.length % 2 === 1;
}

function edgeAt(nodes, index) {
  for (let step = 0; step < nodes.length; step += 1) {
    const name = nodes[(index - step + 2 * nodes.length) % nodes.length].edge;
    if (name) return name;
  }
  return "";
}

export function flipping(start, end) {
  const along = chord(start, end);
  return (p) => {
    const by = 2 * ((p.x - start.x) * along.x + (p.y - start.y) * along.y);
    return { x: 2 * start.x + by * along.x - p.x, y: 2 * start.y + by * along.y - p.y };
  };
}

// Reflected in the line through two points, in the other order, so that every side stays a side.
export function mirrored(nodes, start, end) {
  const flip = flipping(start, end);
  const turned = [];
  for (let index = nodes.length - 1; index >= 0; index -= 1) {
    const { curved } = nodes[(index + nodes.length - 1) % nodes.length];
    turned.push({ ...flip(nodes[index]), corner: nodes[index].corner, curved, edge: edgeAt(nodes, index - 1) });
  }
  return namedWhereTheyStart(turned);
}

// A half, with its fold as the side that leaves the point at `index`, and its other half.
export function unfolded(nodes, index) {
  const half = nodes.map((_, step) => nodes[(index + 1 + step) % nodes.length]);
  const last = half.length - 1;
  const other = mirrored(half, half[last], half[0]);
  const named = half.map((node, at) => ({ ...node, edge: edgeAt(half, at) }));
  const names = other.map((_, at) => edgeAt(other, at));
  const back = other.map((node, at) => ({ ...node, edge: names[at] }));
  return namedWhereTheyStart([
    ...named.slice(0, last),
    { ...half[last], curved: back[0].curved, edge: back[0].edge },
    ...back.slice(1, last),
  ]);
}

function namedWhereTheyStart(nodes) {
  return nodes.map((node, index) => {
    const before = nodes[(index + nodes.length - 1) % nodes.length];
    return node.edge === before.edge && nodes.some((one) => one.edge !== node.edge) ? { ...node, edge: "" } : node;
  });
}
