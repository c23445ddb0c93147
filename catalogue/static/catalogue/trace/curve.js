// The outline through traced points, by the same rule as the server: a smooth point's tangent is that of the
// parabola through it and its two neighbours. Points are {x, y} in millimetres; lengths here are provisional.

const minus = (a, b) => ({ x: a.x - b.x, y: a.y - b.y });
const plus = (a, b, by = 1) => ({ x: a.x + b.x * by, y: a.y + b.y * by });
const size = (a) => Math.hypot(a.x, a.y);
export const distance = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);

function chord(a, b) {
  const far = distance(a, b);
  return far ? { x: (b.x - a.x) / far, y: (b.y - a.y) / far } : { x: 0, y: 0 };
}

function smoothTangent(before, here, after) {
  const first = distance(before, here);
  const second = distance(here, after);
  if (!first || !second) return chord(before, after);
  const share = second / (first + second);
  const one = chord(before, here);
  const other = chord(here, after);
  return { x: share * one.x + (1 - share) * other.x, y: share * one.y + (1 - share) * other.y };
}

function tangentAt(nodes, index) {
  const before = nodes[(index + nodes.length - 1) % nodes.length];
  const here = nodes[index];
  const after = nodes[(index + 1) % nodes.length];
  if (here.corner || !(before.curved || here.curved)) return null;
  if (before.curved && here.curved) return smoothTangent(before, here, after);
  return before.curved ? chord(here, after) : chord(before, here);
}

// The side that leaves a point: four control points, or two where it is straight.
export function sideOf(nodes, index) {
  const start = nodes[index];
  const after = (index + 1) % nodes.length;
  const end = nodes[after];
  if (!start.curved) return [start, end];
  let leaving = tangentAt(nodes, index);
  let arriving = tangentAt(nodes, after);
  if (!leaving && !arriving) return [start, end];
  const straight = chord(start, end);
  leaving ??= { x: 2 * straight.x - arriving.x, y: 2 * straight.y - arriving.y };
  arriving ??= { x: 2 * straight.x - leaving.x, y: 2 * straight.y - leaving.y };
  const third = distance(start, end) / 3;
  return [start, plus(start, leaving, third), plus(end, arriving, -third), end];
}

export const sidesOf = (nodes) => nodes.map((_, index) => sideOf(nodes, index));

export function pointOn(side, t) {
  if (side.length === 2) return plus(side[0], minus(side[1], side[0]), t);
  const s = 1 - t;
  const weights = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  return weights.reduce((sum, weight, index) => plus(sum, side[index], weight), { x: 0, y: 0 });
}

export function flattened(side, steps = 16) {
  if (side.length === 2) return side;
  return Array.from({ length: steps + 1 }, (_, step) => pointOn(side, step / steps));
}

// Gauss-Legendre, eight points (Abramowitz and Stegun, table 25.4), halved until the halves agree with the whole.
const GAUSS = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

function speed(side, t) {
  const s = 1 - t;
  const slope = plus(
    plus(plus({ x: 0, y: 0 }, minus(side[1], side[0]), 3 * s * s), minus(side[2], side[1]), 6 * s * t),
    minus(side[3], side[2]),
    3 * t * t,
  );
  return size(slope);
}

function gauss(side, from, to) {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  return GAUSS.reduce(
    (sum, [node, weight]) =>
      sum + weight * half * (speed(side, middle + half * node) + speed(side, middle - half * node)),
    0,
  );
}

function halved(side, from, to, whole, tolerance, depth) {
  const middle = (from + to) / 2;
  const first = gauss(side, from, middle);
  const second = gauss(side, middle, to);
  if (!depth || Math.abs(first + second - whole) <= tolerance) return first + second;
  return (
    halved(side, from, middle, first, tolerance / 2, depth - 1) +
    halved(side, middle, to, second, tolerance / 2, depth - 1)
  );
}

export function lengthOf(side) {
  if (side.length === 2) return distance(side[0], side[1]);
  return halved(side, 0, 1, gauss(side, 0, 1), 1e-6, 12);
}

export const flatOutline = (nodes) => sidesOf(nodes).flatMap((side) => flattened(side).slice(0, -1));

export function areaOf(nodes) {
  const flat = flatOutline(nodes);
  const twice = flat.reduce((sum, a, index) => {
    const b = flat[(index + 1) % flat.length];
    return sum + a.x * b.y - a.y * b.x;
  }, 0);
  return Math.abs(twice) / 2;
}

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

// The parts of a line that lie within the outline, by its chords.
export function widthAt(nodes, start, end) {
  const flat = flatOutline(nodes);
  const along = minus(end, start);
  const long = along.x * along.x + along.y * along.y;
  const places = [];
  flat.forEach((a, index) => {
    const b = flat[(index + 1) % flat.length];
    const above = (p) => along.x * (p.y - start.y) - along.y * (p.x - start.x);
    const [one, other] = [above(a), above(b)];
    if (one <= 0 === other <= 0) return;
    const met = plus(a, minus(b, a), one / (one - other));
    places.push((along.x * (met.x - start.x) + along.y * (met.y - start.y)) / long);
  });
  places.sort((a, b) => a - b);
  let width = 0;
  for (let index = 0; index + 1 < places.length; index += 2) {
    width += Math.max(0, Math.min(1, places[index + 1]) - Math.max(0, places[index]));
  }
  return width * Math.sqrt(long);
}

// The place on any side that is nearest to a point: {index, t, point, far}.
export function nearestOn(nodes, point) {
  let best = null;
  sidesOf(nodes).forEach((side, index) => {
    const steps = 24;
    for (let step = 0; step < steps; step += 1) {
      const a = pointOn(side, step / steps);
      const b = pointOn(side, (step + 1) / steps);
      const along = minus(b, a);
      const long = along.x ** 2 + along.y ** 2 || 1e-12;
      const share = ((point.x - a.x) * along.x + (point.y - a.y) * along.y) / long;
      const held = Math.max(0, Math.min(1, share));
      const far = distance(point, plus(a, along, held));
      if (!best || far < best.far) {
        const t = (step + held) / steps;
        best = { index, t, point: pointOn(side, t), far };
      }
    }
  });
  return best;
}

// Reflected in the line through two points, in the other order, so that every side stays a side.
export function mirrored(nodes, start, end) {
  const along = chord(start, end);
  const flip = (p) => {
    const off = minus(p, start);
    const by = 2 * (off.x * along.x + off.y * along.y);
    return { x: start.x + by * along.x - off.x, y: start.y + by * along.y - off.y };
  };
  const edgeOf = (index) => {
    for (let step = 0; step < nodes.length; step += 1) {
      const name = nodes[(index - step + 2 * nodes.length) % nodes.length].edge;
      if (name) return name;
    }
    return "";
  };
  const turned = [];
  for (let index = nodes.length - 1; index >= 0; index -= 1) {
    const side = (index + nodes.length - 1) % nodes.length;
    const node = nodes[index];
    turned.push({ ...flip(node), corner: node.corner, curved: nodes[side].curved, edge: edgeOf(side) });
  }
  return turned.map((node, index) => {
    const before = turned[(index + turned.length - 1) % turned.length];
    return node.edge === before.edge && turned.some((one) => one.edge !== node.edge) ? { ...node, edge: "" } : node;
  });
}
