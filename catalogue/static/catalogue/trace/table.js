// The points of the current piece as a table: every place, corner, curve and edge name can be typed.

const BOXES = [
  ["x", "text", "across"],
  ["y", "text", "down"],
  ["corner", "checkbox", "corner"],
  ["curved", "checkbox", "curve to the next point"],
  ["edge", "text", "edge that starts here"],
];

export const inUnit = (mm, unit) => (mm / unit.mm).toFixed(3);

// The millimetres that a box says; the box is marked, and null given, where it says no number.
export function typedMm(box, unit) {
  const mm = box.value.trim() === "" ? NaN : Number(box.value.replace(",", ".")) * unit.mm;
  const isFault = !(Math.abs(mm) < 1e6);
  if (isFault) box.setAttribute("aria-invalid", "true");
  else box.removeAttribute("aria-invalid");
  return isFault ? null : mm;
}

export class PointTable {
  constructor(body, drawing, unit) {
    Object.assign(this, { body, drawing, unit, shown: [] });
    for (const event of ["changed", "selected"]) drawing.addEventListener(event, () => this.draw());
    body.addEventListener("change", (event) => this.#typed(event.target));
    body.addEventListener("focusin", (event) => this.#entered(event.target));
    this.draw();
  }

  draw() {
    const { nodes, selected } = this.drawing;
    while (this.body.rows.length > nodes.length) this.body.deleteRow(-1);
    this.shown.length = Math.min(this.shown.length, nodes.length);
    nodes.forEach((node, index) => {
      const row = this.body.rows[index] ?? this.#row(index);
      row.toggleAttribute("aria-current", index === selected);
      if (this.shown[index] !== node) this.#fill(row, node);
      this.shown[index] = node;
    });
  }

  #row(index) {
    const row = this.body.insertRow();
    const head = document.createElement("th");
    Object.assign(head, { scope: "row", textContent: index + 1 });
    row.append(head);
    for (const [name, type, label] of BOXES) {
      const box = document.createElement("input");
      Object.assign(box, { type, name, autocomplete: "off" });
      if (name === "edge") box.setAttribute("list", "edge-names");
      else if (type === "text") Object.assign(box, { inputMode: "decimal", size: 7, className: "length" });
      box.setAttribute("aria-label", `point ${index + 1}, ${label}`);
      row.insertCell().append(box);
    }
    return row;
  }

  #fill(row, node) {
    for (const box of row.querySelectorAll("input")) {
      if (box.type === "checkbox") box.checked = node[box.name];
      else box.value = box.name === "edge" ? node.edge : inUnit(node[box.name], this.unit);
    }
  }

  #typed(box) {
    const index = box.closest("tr").rowIndex - 1;
    const value = box.type === "checkbox" ? box.checked : box.name === "edge" ? box.value.trim() : typedMm(box, this.unit);
    if (value !== null) this.drawing.changeNode(index, { [box.name]: value });
  }

  #entered(box) {
    const index = box.closest("tr").rowIndex - 1;
    if (index !== this.drawing.selected) this.drawing.select(index);
  }
}
