// Mouse, pen and touch on the board: what a press does depends on the tool that is chosen.

/* global ol */

import { distance, nearestOn } from "./curve.js";
import { toPlace } from "./board.js";

const NEAR_PX = { mouse: 9, pen: 9, touch: 18 };
export const MARK_POINTS = { grain: 2, fold: 2, notch: 1, dart: 3, pleat: 4, length: 2, level: 2 };

export class Pointer {
  constructor(map, drawing, sketch, tools) {
    Object.assign(this, { map, drawing, sketch, tools });
    map.addInteraction(
      new ol.interaction.Pointer({
        handleDownEvent: (event) => this.down(event),
        handleDragEvent: (event) => this.move(event),
        handleUpEvent: (event) => this.up(event),
      }),
    );
    map.on("singleclick", (event) => this.click(event));
  }

  near(event) {
    const kind = event.originalEvent?.pointerType || "mouse";
    return (NEAR_PX[kind] ?? 9) * this.map.getView().getResolution();
  }

  nodeAt(place, near) {
    let best = null;
    this.drawing.nodes.forEach((node, index) => {
      const far = distance(node, place);
      if (far <= near && (!best || far < best.far)) best = { index, far };
    });
    return best?.index ?? null;
  }

  // A press on a point of the current piece takes hold of it; anything else moves the picture.
  down(event) {
    this.held = this.nodeAt(toPlace(event.coordinate), this.near(event));
    this.hasMoved = false;
    return this.held !== null;
  }

  move(event) {
    if (!this.hasMoved) this.drawing.begin();
    this.hasMoved = true;
    this.drawing.drag(this.held, this.snapped(toPlace(event.coordinate), this.near(event), this.held));
  }

  up() {
    if (this.hasMoved) this.drawing.drop();
    this.drawing.select(this.held);
    this.justHeld = true;
    return false;
  }

  click(event) {
    const near = this.near(event);
    const place = toPlace(event.coordinate);
    if (this.justHeld) {
      this.justHeld = false;
      if (this.nodeAt(place, near) !== null) return;
    }
    this.place(place, near);
  }

  // What the chosen tool does at a place; the keyboard comes here as well.
  place(place, near) {
    const { tool, curve } = this.tools;
    if (!this.drawing.current) return;
    if (tool === "trace") this.drawing.addNode(this.snapped(place, near), { curve });
    else if (tool === "split") this.split(place, near);
    else if (tool === "move") this.drawing.select(this.nodeAt(place, near));
    else this.mark(tool, this.snapped(place, near));
  }

  split(place, near) {
    if (this.drawing.nodes.length < 2) return;
    const found = nearestOn(this.drawing.nodes, place);
    if (found.far <= 2 * near) this.drawing.splitSide(found.index, found.point);
  }

  mark(kind, place) {
    this.sketch.pending.push(place);
    if (this.sketch.pending.length === MARK_POINTS[kind]) {
      const points = this.sketch.pending.map(({ x, y }) => [x, y]);
      this.sketch.pending = [];
      const { line } = this.tools;
      if (kind === "level") this.drawing.change({ levels: [...this.drawing.levels, { line, points }] });
      else this.drawing.addMark({ kind, line: kind === "length" ? line : "", points });
    }
    this.sketch.draw();
  }

  // To a point of any piece, then to a side, then to the grid, where that is asked for and near.
  snapped(place, near, held = null) {
    if (this.tools.snaps) {
      let best = null;
      for (const { piece, nodes } of this.drawing.state.pieces) {
        nodes.forEach((node, index) => {
          if (piece === this.drawing.piece && index === held) return;
          const far = distance(node, place);
          if (far <= near && (!best || far < best.far)) best = { far, x: node.x, y: node.y };
        });
      }
      for (const { piece, nodes } of best ? [] : this.drawing.state.pieces) {
        if (piece === this.drawing.piece || nodes.length < 2) continue;
        const found = nearestOn(nodes, place);
        if (found.far <= near && (!best || found.far < best.far)) best = { far: found.far, ...found.point };
      }
      if (best) return { x: best.x, y: best.y };
    }
    const square = this.tools.square;
    if (this.tools.snapsToGrid && square) {
      const cross = { x: Math.round(place.x / square) * square, y: Math.round(place.y / square) * square };
      if (distance(cross, place) <= near) return cross;
    }
    return place;
  }
}
