// Draws the drawing on the board. A side or a point is drawn again only where it has moved.

/* global ol */

import { flattened, sidesOf } from "./curve.js";
import { ink, overlay, toMap } from "./board.js";

const { Fill, Stroke, Style, Circle, RegularShape, Text } = ol.style;

export class Sketch {
  constructor(map, drawing) {
    this.drawing = drawing;
    this.source = overlay(map);
    this.drawn = new Map();
    this.styles = makeStyles();
    this.pending = []; // points of a mark or level that is being drawn
    this.cursor = null;
    for (const event of ["changed", "dragged", "selected"]) drawing.addEventListener(event, () => this.draw());
    this.draw();
  }

  draw() {
    const seen = new Set();
    for (const piece of this.drawing.state.pieces) this.#piece(piece, seen);
    this.drawing.levels.forEach((level, index) => {
      this.#put(seen, `level ${index}`, level.points.map(toMap2), this.styles.level(level.line));
    });
    if (this.pending.length) this.#put(seen, "pending", this.pending.map(toMap), this.styles.pending);
    if (this.cursor) this.#put(seen, "cursor", toMap(this.cursor), this.styles.cursor);
    for (const [key, { feature }] of this.drawn) {
      if (seen.has(key)) continue;
      this.source.removeFeature(feature);
      this.drawn.delete(key);
    }
  }

  #piece({ piece, nodes, marks }, seen) {
    const isCurrent = piece === this.drawing.piece;
    sidesOf(nodes).forEach((side, index) => {
      if (nodes.length < 2) return;
      const closing = index === nodes.length - 1;
      const style = isCurrent ? (closing ? this.styles.closing : this.styles.side) : this.styles.other;
      this.#put(seen, `side ${piece} ${index}`, flattened(side).map(toMap), style);
    });
    marks.forEach((mark, index) => {
      const points = mark.points.map(toMap2);
      const shape = points.length === 1 ? points[0] : points;
      this.#put(seen, `mark ${piece} ${index}`, shape, this.styles.mark(mark));
    });
    if (!isCurrent) return;
    nodes.forEach((node, index) => {
      const chosen = index === this.drawing.selected;
      const style = this.styles[`${chosen ? "chosen" : ""}${node.corner ? "Corner" : "Smooth"}`];
      this.#put(seen, `node ${piece} ${index}`, toMap(node), style);
    });
  }

  #put(seen, key, shape, style) {
    seen.add(key);
    const word = shape.join();
    const held = this.drawn.get(key);
    if (!held) {
      const feature = new ol.Feature(geometry(shape));
      feature.setStyle(style);
      this.source.addFeature(feature);
      this.drawn.set(key, { feature, word, style });
      return;
    }
    if (held.word !== word) {
      const kind = held.feature.getGeometry().getType() === geometry(shape).getType();
      if (kind) held.feature.getGeometry().setCoordinates(shape);
      else held.feature.setGeometry(geometry(shape));
      held.word = word;
    }
    if (held.style !== style) {
      held.feature.setStyle(style);
      held.style = style;
    }
  }
}

const toMap2 = ([x, y]) => [x, -y];

function geometry(shape) {
  return Array.isArray(shape[0]) ? new ol.geom.LineString(shape) : new ol.geom.Point(shape);
}

function makeStyles() {
  // Drawn over a scan, which is paper by day and by night: colours with a light edge beneath them.
  const halo = (width) => new Style({ stroke: new Stroke({ color: "rgba(255,255,255,0.75)", width }) });
  const line = (color, width, lineDash) => new Style({ stroke: new Stroke({ color, width, lineDash }) });
  const [blue, red, violet] = ["#1f5687", "#a31d33", "#5d4684"];
  const dot = (Shape, fill, radius, more = {}) =>
    new Style({ image: new Shape({ radius, fill: new Fill({ color: fill }), stroke: new Stroke({ color: "#fff", width: 1.5 }), ...more }), zIndex: 5 });
  const square = { points: 4, angle: Math.PI / 4 };
  const named = new Map();
  const once = (key, make) => named.get(key) ?? named.set(key, make()).get(key);
  // At the line's first end: in its middle the words of several lines would lie on one another.
  const label = (text, color) =>
    new Style({
      geometry: (feature) => new ol.geom.Point(feature.getGeometry().getFirstCoordinate()),
      text: new Text({ text, font: `12px ${ink("sans")}`, fill: new Fill({ color }), stroke: new Stroke({ color: "#fff", width: 3 }), textAlign: "right", offsetX: -4 }),
    });
  return {
    side: [halo(5), line(blue, 2.2)],
    closing: [halo(5), line(blue, 2.2, [8, 5])],
    other: [halo(4), line(blue, 1.2)],
    pending: [halo(5), line(red, 2, [4, 4])],
    Corner: dot(RegularShape, blue, 6, square),
    Smooth: dot(Circle, blue, 4.5),
    chosenCorner: dot(RegularShape, red, 8, square),
    chosenSmooth: dot(Circle, red, 6.5),
    cursor: new Style({ image: new RegularShape({ points: 4, radius: 12, radius2: 0, stroke: new Stroke({ color: red, width: 2 }) }), zIndex: 6 }),
    level: (name) => once(`level ${name}`, () => [halo(4), line(red, 1.6, [8, 4]), label(name, red)]),
    mark: ({ kind, points }) =>
      once(`mark ${kind} ${points.length}`, () =>
        points.length === 1
          ? dot(RegularShape, violet, 6, { points: 3 })
          : [halo(4), line(violet, 1.6), label(kind, violet)]),
  };
}
