// Mouse, pen and touch on the board: what a press does depends on the tool that is chosen.

/* global ol */

import { distance } from "./curve.js";
import { holds, nearestOn } from "./outline.js";
import { snapped } from "./snapping.js";
import { toPlace } from "./board.js";

const NEAR_PX = { mouse: 9, pen: 9, touch: 18 };
// What each tool may take hold of, the first before the others where several are near.
const HOLDS = { trace: ["node"], split: ["node"], move: ["node", "mark", "level"], level: ["level"] };

export class Pointer {
  constructor(map, drawing, sketch, tools) {
    Object.assign(this, { map, drawing, sketch, tools });
    this.hand = new ol.interaction.Pointer({
      handleDownEvent: (event) => this.down(event),
      handleDragEvent: (event) => this.move(event),
      handleUpEvent: () => this.up(),
    });
    map.addInteraction(this.hand);
    map.on("click", (event) => this.click(event));
  }

  near(event) {
    const kind = event.originalEvent?.pointerType || "mouse";
    return (NEAR_PX[kind] ?? 9) * this.map.getView().getResolution();
  }

  // What a press takes hold of: what is chosen already, or what is nearest of the first kind in reach.
  gripAt(place, near) {
    if (this.sketch.pending.length) return null;
    const kinds = HOLDS[this.tools.tool] ?? ["mark"];
    const found = [...this.drawing.grips()]
      .map((grip) => ({ ...grip, far: distance(grip.place, place), rank: kinds.indexOf(grip.of) }))
      .filter(({ far, rank }) => far <= near && rank >= 0);
    const { chosen } = this.drawing;
    const isChosen = (grip) => grip.of === chosen?.of && grip.index === chosen.index && grip.at === chosen.at;
    found.sort((a, b) => isChosen(b) - isChosen(a) || a.rank - b.rank || a.far - b.far);
    return found[0] ?? null;
  }

  // A press on something that can be held takes hold of it; anything else moves the picture.
  down(event) {
    this.held = this.hand.targetPointers?.length > 1 ? null : this.gripAt(toPlace(event.coordinate), this.near(event));
    this.hasMoved = this.justHeld = false;
    return this.held !== null;
  }

  move(event) {
    if (!this.held) return;
    // A second finger means the picture, not the point.
    if (this.hand.targetPointers.length > 1) {
      if (this.hasMoved) this.drawing.letGo();
      this.held = null;
      return;
    }
    if (!this.hasMoved) this.drawing.begin();
    this.hasMoved = true;
    this.drawing.drag(this.held, this.snapped(event, this.held));
  }

  up() {
    if (this.hasMoved && this.held) this.drawing.drop();
    if (this.held) this.drawing.choose(this.held);
    this.justHeld = this.held !== null && !this.hasMoved;
    return false;
  }

  click(event) {
    const wasHeld = this.justHeld;
    this.justHeld = false;
    if (!wasHeld) this.place(toPlace(event.coordinate), this.near(event), event.originalEvent?.altKey);
  }

  // What the chosen tool does at a place; the keyboard comes here as well.
  place(place, near, isFree = false) {
    const { tool, curve } = this.tools;
    if (!this.drawing.current) return;
    const aim = () => (isFree ? place : snapped(this.drawing, this.tools, place, near));
    if (tool === "trace") this.drawing.addNode(aim(), { curve });
    else if (tool === "split") this.split(place, near);
    else if (tool === "move") this.choose(place, near);
    else this.mark(aim(), near);
  }

  snapped(event, grip) {
    const place = toPlace(event.coordinate);
    if (event.originalEvent.altKey) return place;
    return snapped(this.drawing, this.tools, place, this.near(event), grip);
  }

  // A point, or the piece that lies there.
  choose(place, near) {
    const grip = this.gripAt(place, near);
    const other = grip ?? this.drawing.state.pieces.find(({ nodes }) => nodes.length > 2 && holds(nodes, place));
    if (grip) this.drawing.choose(grip);
    else if (other && other.piece !== this.drawing.piece) this.drawing.choosePiece(other.piece);
    else this.drawing.choose(null);
  }

  split(place, near) {
    if (this.drawing.nodes.length < 2) return;
    const found = nearestOn(this.drawing.nodes, place, 2 * near);
    if (found) this.drawing.splitSide(found.index, found.point);
  }

  // A press on the last point once more ends a line that may have any number of them.
  mark(place, near) {
    const { pending } = this.sketch;
    const isAgain = pending.length > 0 && distance(pending.at(-1), place) <= near / 2;
    if (!isAgain) pending.push(place);
    if (isAgain || pending.length === this.tools.mark.most) this.finish();
    this.sketch.draw();
    this.tools.told();
  }

  finish() {
    const { kind, fewest, line } = this.tools.mark;
    const { pending } = this.sketch;
    if (pending.length < fewest) return;
    const points = pending.map(({ x, y }) => [x, y]);
    this.sketch.pending = [];
    if (kind === "level") this.drawing.addLevel({ line, points });
    else this.drawing.addMark({ kind, line: kind === "length" ? line : "", count: 1, points });
  }

  cancel() {
    this.sketch.pending = [];
    this.drawing.choose(null);
    this.tools.told();
  }
}
