// How points and lines look over a scan, which is paper by day and by night: colours with a light edge beneath.

/* global ol */

import { ink } from "./board.js";

const BEFORE = { textAlign: "right", offsetX: -8 };
const [BLUE, RED, VIOLET] = ["#1f5687", "#a31d33", "#5d4684"];

export function makeStyles() {
  const { Fill, Stroke, Style, Circle, RegularShape, Text } = ol.style;
  // All halos first, then all lines: those of one look are drawn in one go, however many they are.
  const halo = (width) => new Style({ stroke: new Stroke({ color: "rgba(255,255,255,0.75)", width }), zIndex: 1 });
  const line = (color, width, lineDash) => new Style({ stroke: new Stroke({ color, width, lineDash }), zIndex: 2 });
  const dot = (Shape, fill, radius, more = {}) =>
    new Style({ image: new Shape({ radius, fill: new Fill({ color: fill }), stroke: new Stroke({ color: "#fff", width: 1.5 }), ...more }), zIndex: 5 });
  const square = { points: 4, angle: Math.PI / 4 };
  const word = (text, color, where) =>
    new Style({
      text: new Text({ text, font: `12px ${ink("sans")}`, fill: new Fill({ color }), stroke: new Stroke({ color: "#fff", width: 3 }), ...where }),
    });
  const named = new Map();
  const once = (key, make) => named.get(key) ?? named.set(key, make()).get(key);
  return {
    side: [halo(5), line(BLUE, 2.2)],
    closing: [halo(5), line(BLUE, 2.2, [8, 5])],
    other: [halo(4), line(BLUE, 1.2)],
    pending: [halo(5), line(RED, 2, [4, 4])],
    Corner: dot(RegularShape, BLUE, 6, square),
    Smooth: dot(Circle, BLUE, 4.5),
    chosenCorner: dot(RegularShape, RED, 8, square),
    chosenSmooth: dot(Circle, RED, 6.5),
    handle: dot(Circle, VIOLET, 3.5),
    chosenHandle: dot(Circle, RED, 6),
    cursor: new Style({ image: new RegularShape({ points: 4, radius: 12, radius2: 0, stroke: new Stroke({ color: RED, width: 2 }) }), zIndex: 6 }),
    level: [halo(4), line(RED, 1.6, [8, 4])],
    mark: [halo(4), line(VIOLET, 1.6)],
    notch: dot(RegularShape, VIOLET, 6, { points: 3 }),
    edgeWord: (name) => once(`edge ${name}`, () => word(name, BLUE, { textAlign: "left", offsetX: 9, offsetY: 11 })),
    levelWord: (name) => once(`level ${name}`, () => word(name, RED, BEFORE)),
    markWord: ({ kind, count }) =>
      once(`mark ${kind} ${count}`, () => word(count > 1 ? `${count} × ${kind}` : kind, VIOLET, BEFORE)),
  };
}
