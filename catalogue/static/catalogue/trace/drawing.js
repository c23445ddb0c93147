// What is drawn on a plate: pieces with their points and marks, and level lines; with every step to undo it.
// A step is kept as a whole state: states share what they do not change, and JSON keeps them over a reload.

const MOST_STEPS = 60;

export class Drawing extends EventTarget {
  constructor(drawing, memory) {
    super();
    this.memory = memory;
    this.state = { pieces: drawing.pieces, levels: drawing.levels };
    this.past = [];
    this.future = [];
    this.piece = drawing.pieces[0]?.piece ?? null;
    this.selected = null; // the index of a point of the current piece
    this.#recall();
  }

  get current() {
    return this.state.pieces.find((one) => one.piece === this.piece);
  }

  get nodes() {
    return this.current?.nodes ?? [];
  }

  get levels() {
    return this.state.levels;
  }

  choosePiece(pk) {
    this.piece = pk;
    this.select(null);
  }

  select(index) {
    this.selected = index !== null && this.nodes[index] ? index : null;
    this.dispatchEvent(new Event("selected"));
  }

  // One step that can be undone.
  change(change) {
    this.past.push(this.state);
    if (this.past.length > MOST_STEPS) this.past.shift();
    this.future = [];
    this.#set({ ...this.state, ...change });
  }

  changePiece(change) {
    this.change({
      pieces: this.state.pieces.map((one) => (one.piece === this.piece ? { ...one, ...change } : one)),
    });
  }

  changeNode(index, change) {
    this.changePiece({ nodes: this.nodes.map((node, at) => (at === index ? { ...node, ...change } : node)) });
  }

  // While a point is dragged, without a step for every move; `begin` made the one.
  begin() {
    this.past.push(this.state);
    this.future = [];
  }

  drag(index, place) {
    const nodes = this.nodes.slice();
    nodes[index] = { ...nodes[index], x: place.x, y: place.y };
    const pieces = this.state.pieces.map((one) => (one.piece === this.piece ? { ...one, nodes } : one));
    this.state = { ...this.state, pieces };
    this.dispatchEvent(new Event("dragged"));
  }

  drop() {
    this.#set(this.state);
  }

  addNode(place, { curve }) {
    const nodes = this.nodes.slice();
    const at = this.selected ?? nodes.length - 1;
    const before = nodes[at];
    if (before) nodes[at] = { ...before, curved: curve };
    nodes.splice(at + 1, 0, { x: place.x, y: place.y, corner: !curve, curved: before?.curved ?? false, edge: "" });
    this.selected = at + 1;
    this.changePiece({ nodes });
  }

  splitSide(index, place) {
    const nodes = this.nodes.slice();
    const { curved } = nodes[index];
    nodes.splice(index + 1, 0, { x: place.x, y: place.y, corner: !curved, curved, edge: "" });
    this.selected = index + 1;
    this.changePiece({ nodes });
  }

  removeNode(index) {
    const gone = this.nodes[index];
    const nodes = this.nodes.filter((_, at) => at !== index);
    // The edge that started there starts at the next point.
    const after = index % Math.max(nodes.length, 1);
    if (gone.edge && nodes[after] && !nodes[after].edge) nodes[after] = { ...nodes[after], edge: gone.edge };
    this.selected = nodes.length ? Math.max(0, index - 1) : null;
    this.changePiece({ nodes });
  }

  addMark(mark) {
    this.changePiece({ marks: [...this.current.marks, mark] });
  }

  removeMark(index) {
    this.changePiece({ marks: this.current.marks.filter((_, at) => at !== index) });
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

  #set(state) {
    this.state = state;
    if (!this.nodes[this.selected]) this.selected = null;
    this.#remember();
    this.dispatchEvent(new Event("changed"));
  }

  #remember() {
    try {
      sessionStorage.setItem(
        this.memory,
        JSON.stringify({ state: this.state, past: this.past.slice(-20), future: this.future.slice(-20) }),
      );
    } catch {
      // A full store loses the steps over a reload, and nothing else.
      sessionStorage.removeItem(this.memory);
    }
  }

  // Steps of this tab fit only the very drawing that they led to.
  #recall() {
    try {
      const kept = JSON.parse(sessionStorage.getItem(this.memory));
      if (kept && alike(kept.state, this.state)) Object.assign(this, { past: kept.past, future: kept.future });
    } catch {
      sessionStorage.removeItem(this.memory);
    }
  }
}

// The server keeps pixels of the scan: millimetres come back with other last digits.
function alike(one, other) {
  const rounded = (key, value) => (typeof value === "number" ? Math.round(value * 1000) : value);
  return JSON.stringify(sorted(one), rounded) === JSON.stringify(sorted(other), rounded);
}

function sorted(state) {
  const pieces = state.pieces.map(({ piece, nodes, marks }) => ({
    piece,
    nodes: nodes.map(({ x, y, corner, curved, edge }) => ({ x, y, corner, curved, edge })),
    marks: marks.map(({ kind, line, points }) => ({ kind, line, points })),
  }));
  return { pieces, levels: state.levels.map(({ line, points }) => ({ line, points })) };
}
