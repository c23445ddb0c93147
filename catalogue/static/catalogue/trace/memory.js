// The steps of a drawing over a reload of this tab. They fit only the very drawing that they led to.

const A_MOMENT = 300;
const MOST_KEPT = 20;

export class Memory {
  constructor(name, drawing) {
    Object.assign(this, { name, drawing });
    addEventListener("pagehide", () => this.waiting && this.keep());
  }

  // Not at once: some hundred points, twenty times over, are too much to write between two frames.
  keepSoon() {
    this.waiting ??= setTimeout(() => this.keep(), A_MOMENT);
  }

  keep() {
    clearTimeout(this.waiting);
    this.waiting = null;
    const { state, past, future } = this.drawing;
    const kept = { state, past: past.slice(-MOST_KEPT), future: future.slice(-MOST_KEPT) };
    try {
      sessionStorage.setItem(this.name, JSON.stringify(kept));
    } catch {
      // A full store loses the steps over a reload, and nothing else.
      sessionStorage.removeItem(this.name);
    }
  }

  // The steps back and the steps forth.
  recalled() {
    try {
      const kept = JSON.parse(sessionStorage.getItem(this.name));
      if (kept && alike(kept.state, this.drawing.state)) return [kept.past, kept.future];
    } catch {
      sessionStorage.removeItem(this.name);
    }
    return [[], []];
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
    marks: marks.map(({ kind, line, count, points }) => ({ kind, line, count, points })),
  }));
  return { pieces, levels: state.levels.map(({ line, points }) => ({ line, points })) };
}
