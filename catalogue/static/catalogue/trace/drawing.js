// What is drawn on a plate: pieces with their points and marks, and level lines; with every step to undo it.
// A step is a whole state: states share what they do not change, and nothing in them is changed in place.
//
// What can be chosen and moved is named {of: "node", index}, {of: "mark", index, at} or {of: "level", index, at}:
// a point of the current piece's outline or marks, or an end of a level line.

import { Memory } from "./memory.js";

const MOST_STEPS = 60;
const replaced = (list, index, one) => list.map((old, at) => (at === index ? one : old));
const without = (list, index) => list.filter((_, at) => at !== index);
const movedMark = (mark, at, { x, y }) => ({ ...mark, points: replaced(mark.points, at, [x, y]) });

export class Drawing extends EventTarget {
  constructor(drawing, name) {
    super();
    this.state = { pieces: drawing.pieces, levels: drawing.levels };
    this.memory = new Memory(name, this);
    [this.past, this.future] = this.memory.recalled();
    this.piece = drawing.pieces[0]?.piece ?? null;
    this.chosen = null;
  }

  get current() {
    return this.state.pieces.find((one) => one.piece === this.piece);
  }

  get nodes() {
    return this.current?.nodes ?? [];
  }

  get marks() {
    return this.current?.marks ?? [];
  }

  get levels() {
    return this.state.levels;
  }

  // The index of the chosen point of the outline.
  get selected() {
    return this.chosen?.of === "node" ? this.chosen.index : null;
  }

  // All that can be chosen, in turn, with its place.
  *grips() {
    for (const [index, node] of this.nodes.entries()) yield { of: "node", index, place: node };
    for (const [of, list] of [["mark", this.marks], ["level", this.levels]]) {
      for (const [index, { points }] of list.entries()) {
        for (const [at, [x, y]] of points.entries()) yield { of, index, at, place: { x, y } };
      }
    }
  }

  placeOf(grip) {
    if (grip?.of === "node") return this.nodes[grip.index] ?? null;
    const point = (grip?.of === "mark" ? this.marks : this.levels)[grip?.index]?.points[grip.at];
    return point ? { x: point[0], y: point[1] } : null;
  }

  choosePiece(pk) {
    this.piece = pk;
    this.choose(null);
  }

  choose(grip) {
    this.chosen = this.placeOf(grip) && { of: grip.of, index: grip.index, at: grip.at };
    this.dispatchEvent(new Event("selected"));
  }

  select(index) {
    this.choose(index === null ? null : { of: "node", index });
  }

  // One step that can be undone.
  change(change) {
    this.begin();
    this.#set({ ...this.state, ...change });
  }

  changePiece(change) {
    this.change(this.#withPiece(change));
  }

  changeNode(index, change) {
    this.changePiece({ nodes: replaced(this.nodes, index, { ...this.nodes[index], ...change }) });
  }

  // While something is dragged there is no step for every move: `begin` makes the one.
  begin() {
    this.past.push(this.state);
    if (this.past.length > MOST_STEPS) this.past.shift();
    this.future = [];
  }

  drag(grip, place) {
    this.state = { ...this.state, ...this.#moved(grip, place) };
    this.dispatchEvent(new Event("dragged"));
  }

  drop() {
    this.#set(this.state);
  }

  // As if it had not been begun.
  letGo() {
    this.#set(this.past.pop());
  }

  move(grip, place) {
    this.change(this.#moved(grip, place));
  }

  addNode(place, { curve }) {
    const nodes = this.nodes.slice();
    const at = this.selected ?? nodes.length - 1;
    const before = nodes[at];
    if (before) nodes[at] = { ...before, curved: curve };
    nodes.splice(at + 1, 0, { x: place.x, y: place.y, corner: !curve, curved: before?.curved ?? false, edge: "" });
    this.chosen = { of: "node", index: at + 1 };
    this.changePiece({ nodes });
  }

  splitSide(index, place) {
    const nodes = this.nodes.slice();
    const { curved } = nodes[index];
    nodes.splice(index + 1, 0, { x: place.x, y: place.y, corner: !curved, curved, edge: "" });
    this.chosen = { of: "node", index: index + 1 };
    this.changePiece({ nodes });
  }

  // The point, the whole mark or the level line.
  remove({ of, index }) {
    if (of === "level") this.change({ levels: without(this.levels, index) });
    else if (of === "mark") this.changePiece({ marks: without(this.marks, index) });
    else this.#removeNode(index);
  }

  addMark(mark) {
    this.changePiece({ marks: [...this.marks, mark] });
  }

  changeMark(index, change) {
    this.changePiece({ marks: replaced(this.marks, index, { ...this.marks[index], ...change }) });
  }

  addLevel(level) {
    this.change({ levels: [...this.levels, level] });
  }

  changeLevel(index, change) {
    this.change({ levels: replaced(this.levels, index, { ...this.levels[index], ...change }) });
  }

  undo() {
    if (!this.past.length) return;
    this.future.push(this.state);
    this.#set(this.past.pop());
  }

  redo() {
    if (!this.future.length) return;
    this.past.push(this.state);
    this.#set(this.future.pop());
  }

  #withPiece(change) {
    return { pieces: this.state.pieces.map((one) => (one.piece === this.piece ? { ...one, ...change } : one)) };
  }

  #moved({ of, index, at }, { x, y }) {
    if (of === "node") return this.#withPiece({ nodes: replaced(this.nodes, index, { ...this.nodes[index], x, y }) });
    const list = of === "mark" ? this.marks : this.levels;
    const moved = replaced(list, index, movedMark(list[index], at, { x, y }));
    return of === "mark" ? this.#withPiece({ marks: moved }) : { levels: moved };
  }

  #removeNode(index) {
    const gone = this.nodes[index];
    const nodes = without(this.nodes, index);
    // The edge that started there starts at the next point.
    const after = index % Math.max(nodes.length, 1);
    if (gone.edge && nodes[after] && !nodes[after].edge) nodes[after] = { ...nodes[after], edge: gone.edge };
    this.chosen = nodes.length ? { of: "node", index: Math.max(0, index - 1) } : null;
    this.changePiece({ nodes });
  }

  #set(state) {
    this.state = state;
    if (!this.placeOf(this.chosen)) this.chosen = null;
    this.memory.keepSoon();
    this.dispatchEvent(new Event("changed"));
  }
}
