// Draws the drawing on the board. A side or a point is drawn again only where it is another one than before; what
// moves is drawn on a layer of its own, so that the rest is not built anew for every move.

/* global ol */

import { flattened } from "./curve.js";
import { markSides, sideOf } from "./outline.js";
import { overlay, toMap } from "./board.js";
import { makeStyles } from "./styles.js";

const fromPair = ([x, y]) => [x, -y];

export class Sketch {
  constructor(map, drawing) {
    this.drawing = drawing;
    this.still = overlay(map);
    this.moving = overlay(map);
    this.words = overlay(map, { declutter: true }); // where there is no room for all of them, some are left out
    this.drawn = new Map();
    this.styles = makeStyles();
    this.pending = []; // points of a mark or level that is being drawn
    this.cursor = null;
    drawing.addEventListener("dragged", () => this.soon());
    for (const event of ["changed", "selected"]) drawing.addEventListener(event, () => this.draw());
    this.draw();
  }

  // A pen may move several times between two frames.
  soon() {
    this.frame ??= requestAnimationFrame(() => {
      this.frame = null;
      this.#draw(this.moving);
    });
  }

  draw() {
    cancelAnimationFrame(this.frame);
    this.frame = null;
    this.#draw(this.still);
    for (const held of this.drawn.values()) if (held.layer === this.moving) this.#lay(held, this.still);
  }

  #draw(layer) {
    const seen = new Set();
    const put = (...given) => this.#put(layer, seen, ...given);
    for (const piece of this.drawing.state.pieces) this.#piece(piece, put, seen);
    this.drawing.levels.forEach((level, index) => {
      put(`level ${index}`, level, () => level.points.map(fromPair), this.styles.level);
      this.#word(seen, `level ${index}`, level.points[0], this.styles.levelWord(level.line));
      this.#ends("level", index, level, put);
    });
    const { pending, cursor } = this;
    if (pending.length) put("pending", [...pending], () => pending.map(toMap), this.styles.pending);
    pending.forEach((place, at) => put(`pending ${at}`, place, () => toMap(place), this.styles.chosenHandle));
    if (cursor) put("cursor", cursor, () => toMap(cursor), this.styles.cursor);
    for (const [key, { feature, layer: on }] of this.drawn) {
      if (seen.has(key)) continue;
      on.removeFeature(feature);
      this.drawn.delete(key);
    }
  }

  #piece({ piece, nodes, marks }, put, seen) {
    const isCurrent = piece === this.drawing.piece;
    for (let index = 0; nodes.length > 1 && index < nodes.length; index += 1) {
      const closing = index === nodes.length - 1;
      const style = isCurrent ? (closing ? this.styles.closing : this.styles.side) : this.styles.other;
      const side = sideOf(nodes, index);
      put(`side ${piece} ${index}`, side, () => flattened(side).map(toMap), style);
    }
    marks.forEach((mark, index) => {
      const shape = () => (mark.points.length === 1 ? fromPair(mark.points[0]) : drawnOf(mark).map(toMap));
      put(`mark ${piece} ${index}`, mark, shape, mark.points.length === 1 ? this.styles.notch : this.styles.mark);
      if (mark.points.length > 1) this.#word(seen, `mark ${piece} ${index}`, mark.points[0], this.styles.markWord(mark));
      if (isCurrent) this.#ends("mark", index, mark, put);
    });
    if (!isCurrent) return;
    nodes.forEach((node, index) => {
      const chosen = index === this.drawing.selected ? "chosen" : "";
      const style = this.styles[`${chosen}${node.corner ? "Corner" : "Smooth"}`];
      put(`node ${index}`, node, () => toMap(node), style);
      if (node.edge) this.#word(seen, `edge ${index}`, [node.x, node.y], this.styles.edgeWord(node.edge));
    });
  }

  // The points of a mark or a level line, to take hold of.
  #ends(of, index, { points }, put) {
    const { chosen } = this.drawing;
    points.forEach((point, at) => {
      const isChosen = chosen?.of === of && chosen.index === index && chosen.at === at;
      const style = isChosen ? this.styles.chosenHandle : this.styles.handle;
      put(`${of} ${index} ${at}`, point, () => fromPair(point), style);
    });
  }

  // At the first end of what it names: in their middles the words of several lines would lie on one another.
  #word(seen, key, [x, y], style) {
    this.#put(this.words, seen, `word ${key}`, `${x} ${y}`, () => fromPair([x, y]), style);
  }

  #put(layer, seen, key, what, shape, style) {
    seen.add(key);
    const held = this.drawn.get(key);
    if (!held) {
      const feature = new ol.Feature(geometry(shape()));
      feature.setStyle(style);
      layer.addFeature(feature);
      this.drawn.set(key, { feature, what, style, layer });
      return;
    }
    if (held.what !== what) {
      this.#lay(held, layer);
      held.feature.setGeometry(geometry(shape()));
      held.what = what;
    }
    if (held.style !== style) {
      held.feature.setStyle(style);
      held.style = style;
    }
  }

  #lay(held, layer) {
    if (held.layer === layer) return;
    held.layer.removeFeature(held.feature);
    layer.addFeature(held.feature);
    held.layer = layer;
  }
}

function drawnOf(mark) {
  const sides = markSides(mark);
  return [sides[0][0], ...sides.flatMap((side) => flattened(side).slice(1))];
}

function geometry(shape) {
  return Array.isArray(shape[0]) ? new ol.geom.LineString(shape) : new ol.geom.Point(shape);
}
