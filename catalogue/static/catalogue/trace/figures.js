// Lengths beside the board: provisional ones from the browser while drawing, then those that the server reckoned.

import { areaOf, edgesOf, lengthOf, sidesOf, widthAt } from "./curve.js";

export class Figures {
  constructor(element, drawing, unit, labels) {
    Object.assign(this, { element, drawing, unit, labels });
    for (const event of ["changed", "dragged"]) drawing.addEventListener(event, () => this.soon());
    drawing.addEventListener("selected", () => this.soon());
    this.reckoned = new Map();
    this.soon();
  }

  soon() {
    this.frame ??= requestAnimationFrame(() => {
      this.frame = null;
      this.draw();
    });
  }

  provisional() {
    const { nodes } = this.drawing;
    if (nodes.length < 2) return [];
    const inUnit = (mm) => `${(mm / this.unit.mm).toFixed(2)} ${this.unit.name}`;
    const square = `${(areaOf(nodes) / this.unit.mm ** 2).toFixed(1)} ${this.unit.name}²`;
    const around = sidesOf(nodes).reduce((sum, side) => sum + lengthOf(side), 0);
    const rows = [["all round", inUnit(around)], ["area", square]];
    for (const [name, mm] of edgesOf(nodes)) rows.push([name, inUnit(mm)]);
    for (const { line, points } of this.drawing.levels) {
      const [start, end] = points.map(([x, y]) => ({ x, y }));
      const mm = nodes.length > 2 ? widthAt(nodes, start, end) : 0;
      if (mm) rows.push([`at the ${this.labels[line] ?? line}`, inUnit(mm)]);
    }
    return rows;
  }

  answered(said) {
    this.reckoned = new Map(said.pieces.map((piece) => [piece.piece, piece]));
    this.seams = said.seams;
    this.draw();
  }

  draw() {
    const rows = this.provisional().map(([name, text]) => definition(name, text, "provisional"));
    const server = this.reckoned.get(this.drawing.piece);
    const settled = (server?.figures ?? []).map(([name, text]) => definition(name, text, "reckoned"));
    this.element.querySelector("[data-provisional]").replaceChildren(...rows);
    this.element.querySelector("[data-reckoned]").replaceChildren(...settled);
    this.element.querySelector("[data-faults]").replaceChildren(...(server?.faults ?? []).map(item));
    this.element.querySelector("[data-seams]").replaceChildren(...(this.seams ?? []).map(item));
  }
}

function definition(name, text, kind) {
  const row = document.createElement("div");
  const [term, value] = [document.createElement("dt"), document.createElement("dd")];
  term.textContent = name;
  value.textContent = text;
  value.dataset.figure = `${kind} ${name}`;
  row.append(term, value);
  return row;
}

function item(text) {
  const row = document.createElement("li");
  row.textContent = text;
  return row;
}
