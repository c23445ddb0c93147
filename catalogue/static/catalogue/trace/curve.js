// A side of an outline: two control points where it is straight, four where it is curved. Points are {x, y} in
// millimetres; lengths here are provisional. What was once reckoned of a side is remembered as long as it is.

const minus = (a, b) => ({ x: a.x - b.x, y: a.y - b.y });
export const plus = (a, b, by = 1) => ({ x: a.x + b.x * by, y: a.y + b.y * by });
export const distance = (a, b) => Math.hypot(a.x - b.x, a.y - b.y);
const cross = (a, b) => a.x * b.y - a.y * b.x;

export function chord(a, b) {
  const far = distance(a, b);
  return far ? { x: (b.x - a.x) / far, y: (b.y - a.y) / far } : { x: 0, y: 0 };
}

function remembered(make) {
  const known = new WeakMap();
  return (side) => known.get(side) ?? known.set(side, make(side)).get(side);
}

export function pointOn(side, t) {
  if (side.length === 2) return plus(side[0], minus(side[1], side[0]), t);
  const s = 1 - t;
  const weights = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  return weights.reduce((sum, weight, index) => plus(sum, side[index], weight), { x: 0, y: 0 });
}

const STEPS = 16;
export const flattened = remembered((side) =>
  side.length === 2 ? side : Array.from({ length: STEPS + 1 }, (_, step) => pointOn(side, step / STEPS)),
);

// Gauss-Legendre, eight points (Abramowitz and Stegun, table 25.4), halved until the halves agree with the whole.
const GAUSS = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

function speed(side, t) {
  const s = 1 - t;
  const slope = (axis) =>
    3 *
    (s * s * (side[1][axis] - side[0][axis]) +
      2 * s * t * (side[2][axis] - side[1][axis]) +
      t * t * (side[3][axis] - side[2][axis]));
  return Math.hypot(slope("x"), slope("y"));
}

function gauss(side, from, to) {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  const pair = (node) => speed(side, middle + half * node) + speed(side, middle - half * node);
  return half * GAUSS.reduce((sum, [node, weight]) => sum + weight * pair(node), 0);
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

// From the first halves on: where a curve doubles back, the whole may agree with them by chance.
export const lengthOf = remembered((side) => {
  if (side.length === 2) return distance(side[0], side[1]);
  const parts = [0, 0.25, 0.5, 0.75];
  return parts.reduce((sum, t) => sum + halved(side, t, t + 0.25, gauss(side, t, t + 0.25), 2.5e-7, 14), 0);
});

// ½∫(x dy − y dx) along a side: summed round a closed outline it is the area.
export const sweptBy = remembered((side) => {
  if (side.length === 2) return cross(side[0], side[1]) / 2;
  const [a, b, c, d] = side;
  return (6 * cross(a, b) + 3 * cross(a, c) + cross(a, d) + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)) / 20;
});

// A curve lies within the box of its control points.
const boxOf = remembered((side) => {
  const [xs, ys] = [side.map((p) => p.x), side.map((p) => p.y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
});

// How far at least a point lies from a side.
export function atLeastFar(side, point) {
  const { left, right, top, bottom } = boxOf(side);
  return Math.hypot(Math.max(left - point.x, 0, point.x - right), Math.max(top - point.y, 0, point.y - bottom));
}

// The place on a side that is nearest to a point: {t, point, far}.
export function nearestOnSide(side, point) {
  const flat = flattened(side);
  let best = null;
  for (let step = 0; step + 1 < flat.length; step += 1) {
    const along = minus(flat[step + 1], flat[step]);
    const long = along.x ** 2 + along.y ** 2 || 1e-12;
    const share = ((point.x - flat[step].x) * along.x + (point.y - flat[step].y) * along.y) / long;
    const held = Math.max(0, Math.min(1, share));
    const t = (step + held) / (flat.length - 1);
    const far = distance(point, plus(flat[step], along, held));
    if (!best || far < best.far) best = { t, far };
  }
  // The chord's place is off the curve by the chord's sag: the place on the curve counts.
  const place = pointOn(side, best.t);
  return { t: best.t, point: place, far: distance(place, point) };
}

// Where the endless line through two points meets a side, as shares of the way from start to end.
export function meetings(side, start, end) {
  const along = minus(end, start);
  const long = along.x * along.x + along.y * along.y;
  const above = (p) => cross(along, minus(p, start));
  const heights = side.map(above);
  if (heights.every((height) => height > 0) || heights.every((height) => height <= 0)) return [];
  const flat = flattened(side);
  const found = [];
  for (let step = 0; step + 1 < flat.length; step += 1) {
    if (above(flat[step]) <= 0 === above(flat[step + 1]) <= 0) continue;
    const met = minus(crossing(side, above, step / (flat.length - 1), (step + 1) / (flat.length - 1)), start);
    found.push((along.x * met.x + along.y * met.y) / long);
  }
  return found;
}

// Between two places of a side that lie on different hands of a line, the one where it is met: halved until it is.
function crossing(side, above, from, to) {
  if (side.length === 2) {
    const [one, other] = side.map(above);
    return pointOn(side, one / (one - other));
  }
  const hand = above(pointOn(side, from)) <= 0;
  for (let times = 0; times < 40; times += 1) {
    const middle = (from + to) / 2;
    if (above(pointOn(side, middle)) <= 0 === hand) from = middle;
    else to = middle;
  }
  return pointOn(side, from);
}
