// Lengths beside the board: provisional ones from the browser while drawing, and those that the server reckoned.

import { distance } from "./curve.js";
import { areaOf, aroundOf, edgesOf, widthAt } from "./outline.js";

const place = ([x, y]) => ({ x, y });

export class Figures {
  constructor(element, drawing, unit, labels) {
    Object.assign(this, { element, drawing, unit, labels, reckoned: new Map() });
    for (const event of ["changed", "dragged", "selected"]) drawing.addEventListener(event, () => this.soon());
    // What the server offers is of the drawing that it has.
    drawing.addEventListener("changed", () => this.#part("cut-short").querySelectorAll("button").forEach((one) => (one.disabled = true)));
  }

  soon() {
    this.frame ??= requestAnimationFrame(() => {
      this.frame = null;
      this.#drawProvisional();
    });
  }

  // What the drawing comes to just now, by name, in millimetres; the area in their squares.
  provisional() {
    const { nodes, marks, levels } = this.drawing;
    const found = new Map();
    if (nodes.length < 2) return found;
    found.set("all round", aroundOf(nodes));
    found.set("area", areaOf(nodes));
    for (const [name, mm] of edgesOf(nodes)) found.set(name, mm);
    for (const { line, points } of marks.filter((mark) => mark.kind === "length" && mark.line)) {
      const mm = points.slice(1).reduce((sum, point, at) => sum + distance(place(points[at]), place(point)), 0);
      found.set(this.labels[line], mm);
    }
    for (const { line, points } of nodes.length > 2 ? levels : []) {
      const name = `at the ${this.labels[line]}`;
      if (this.reckoned.get(this.drawing.piece)?.over_slits.includes(name)) continue;
      const mm = widthAt(nodes, ...points.map(place));
      if (mm > (found.get(name) ?? 0)) found.set(name, mm);
    }
    return found;
  }

  answered(said) {
    this.reckoned = new Map(said.pieces.map((piece) => [piece.piece, piece]));
    this.seams = said.seams;
    this.draw();
  }

  draw() {
    const server = this.reckoned.get(this.drawing.piece);
    this.piece = this.drawing.piece;
    this.texts = new Map(server?.figures);
    this.rows = new Map();
    this.#part("rows").replaceChildren(...[...this.texts.keys()].map((name) => this.#row(name)));
    for (const [name, text] of this.texts) {
      const cell = this.rows.get(name).reckoned;
      cell.textContent = text;
      cell.dataset.mm = server.exact_mm[name];
    }
    this.#part("faults").replaceChildren(...(server?.faults ?? []).map(item));
    this.#part("cut-short").replaceChildren(...(server?.cut_short ?? []).map(cutShort));
    this.#part("seams").replaceChildren(...(this.seams ?? []).map(item));
    this.#drawProvisional();
  }

  #drawProvisional() {
    if (this.piece !== this.drawing.piece) return this.draw();
    const found = this.provisional();
    for (const [name, mm] of found) {
      if (!this.rows.has(name)) this.#part("rows").append(this.#row(name));
      const cell = this.rows.get(name).provisional;
      const text = this.#inUnit(name, mm);
      cell.dataset.mm = mm;
      if (cell.textContent !== text) cell.textContent = text;
    }
    for (const [name, { element, provisional }] of this.rows) {
      if (found.has(name)) continue;
      provisional.textContent = "";
      if (!this.texts.has(name)) {
        element.remove();
        this.rows.delete(name);
      }
    }
  }

  #inUnit(name, mm) {
    const { mm: one, name: word } = this.unit;
    return name === "area" ? `${(mm / one ** 2).toFixed(1)} ${word}²` : `${(mm / one).toFixed(2)} ${word}`;
  }

  #row(name) {
    const element = document.createElement("tr");
    const head = document.createElement("th");
    Object.assign(head, { scope: "row", textContent: name });
    element.append(head);
    const cells = ["reckoned", "provisional"].map((kind) => {
      const cell = element.insertCell();
      cell.className = "figure";
      cell.dataset.figure = `${kind} ${name}`;
      return cell;
    });
    this.rows.set(name, { element, reckoned: cells[0], provisional: cells[1] });
    return element;
  }

  #part(name) {
    return this.element.querySelector(`[data-${name}]`);
  }
}

// A level that may be cut short, with the button that has the server draw it elsewhere.
function cutShort({ sentence, key }) {
  const row = item(sentence);
  const button = Object.assign(document.createElement("button"), { name: "move", value: key, className: "small" });
  button.textContent = "Move it to the other side";
  if (key) row.append(" ", button);
  return row;
}

function item(text) {
  const row = document.createElement("li");
  row.textContent = text;
  return row;
}
