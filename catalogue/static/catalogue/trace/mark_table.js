// Marks of the current piece and the plate's level lines as a table: their places, what they stand for, how often.

import { pointWord } from "./outline.js";
import { inUnit, typedMm } from "./table.js";

export class MarkTable {
  constructor(body, drawing, unit, { points, lines, levels }) {
    Object.assign(this, { body, drawing, unit, words: points, lines, levels });
    for (const event of ["changed", "selected"]) drawing.addEventListener(event, () => this.draw());
    body.addEventListener("change", (event) => this.#typed(event.target));
    body.addEventListener("focusin", (event) => this.#entered(event.target));
    body.addEventListener("click", (event) => this.#clicked(event.target));
    this.draw();
  }

  // A row is made anew only where it is of another kind of thing: the box that is about to get focus stays.
  draw() {
    const { marks, levels, chosen } = this.drawing;
    const things = [
      ...marks.map((one, index) => ({ of: "mark", word: one.kind, index, one })),
      ...levels.map((one, index) => ({ of: "level", word: "level", index, one })),
    ].flatMap((thing) => thing.one.points.map((_, at) => ({ ...thing, at })));
    while (this.body.rows.length > things.length) this.body.deleteRow(-1);
    things.forEach((thing, number) => {
      let row = this.body.rows[number];
      if (!row || !["word", "index", "at"].every((name) => row.thing[name] === thing[name])) {
        const fresh = this.#row(thing);
        if (row) row.replaceWith(fresh);
        else this.body.append(fresh);
        row = fresh;
      }
      if (row.thing.one !== thing.one || !row.isFilled) this.#fill(row, thing);
      row.toggleAttribute("aria-current", chosen?.of === thing.of && chosen.index === thing.index && chosen.at === thing.at);
    });
  }

  #fill(row, thing) {
    const { one, at } = thing;
    const values = { x: inUnit(one.points[at][0], this.unit), y: inUnit(one.points[at][1], this.unit), line: one.line, count: one.count };
    for (const box of row.querySelectorAll("input, select")) box.value = values[box.name];
    Object.assign(row, { thing, isFilled: true });
  }

  #row(thing) {
    const { word, index, at } = thing;
    const row = Object.assign(document.createElement("tr"), { thing });
    const name = `${word} ${index + 1}`;
    const point = pointWord(this.words, word, thing.one.points.length, at);
    row.append(Object.assign(document.createElement("th"), { scope: "row", textContent: `${name}: ${point}` }));
    const add = (tag, label, given) => {
      const element = Object.assign(document.createElement(tag), given);
      element.setAttribute("aria-label", `${name}, ${label}`);
      return element;
    };
    for (const [axis, way] of [["x", "across"], ["y", "down"]]) {
      const given = { type: "text", name: axis, inputMode: "decimal", size: 7, className: "length", autocomplete: "off" };
      row.insertCell().append(add("input", `${point}, ${way}`, given));
    }
    const [what, gone] = [row.insertCell(), row.insertCell()];
    if (at) return row;
    const choices = word === "level" ? this.levels : word === "length" ? this.lines : null;
    if (choices) {
      const box = add("select", "of what", { name: "line" });
      box.append(...Object.entries(choices).map(([value, text]) => new Option(text, value)));
      what.append(box);
    }
    if (word === "pleat") {
      what.append(add("input", "how many alike", { type: "number", name: "count", min: 1, max: 99, className: "count" }), " alike");
    }
    gone.append(add("button", "remove", { type: "button", className: "quiet small", textContent: "Remove" }));
    return row;
  }

  #typed(box) {
    const { of, index, at, one } = box.closest("tr").thing;
    const change = (changed) => (of === "level" ? this.drawing.changeLevel(index, changed) : this.drawing.changeMark(index, changed));
    if (box.name === "line") change({ line: box.value });
    else if (box.name === "count") change({ count: Math.min(99, Math.max(1, Math.round(Number(box.value)) || 1)) });
    else {
      const mm = typedMm(box, this.unit);
      if (mm === null) return;
      const [x, y] = one.points[at];
      this.drawing.move({ of, index, at }, box.name === "x" ? { x: mm, y } : { x, y: mm });
    }
  }

  #entered(box) {
    const { of, index, at } = box.closest("tr").thing;
    const { chosen } = this.drawing;
    if (chosen?.of !== of || chosen.index !== index || chosen.at !== at) this.drawing.choose({ of, index, at });
  }

  #clicked(element) {
    if (element.matches("button")) this.drawing.remove(element.closest("tr").thing);
  }
}
