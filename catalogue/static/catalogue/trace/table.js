// The points of the current piece as a table: every place, corner, curve and edge name can be typed.

export class PointTable {
  constructor(body, drawing, unit) {
    Object.assign(this, { body, drawing, unit });
    for (const event of ["changed", "selected"]) drawing.addEventListener(event, () => this.draw());
    body.addEventListener("change", (event) => this.#typed(event.target));
    body.addEventListener("focusin", (event) => this.#entered(event.target));
    this.draw();
  }

  draw() {
    const { nodes, selected } = this.drawing;
    while (this.body.rows.length > nodes.length) this.body.deleteRow(-1);
    nodes.forEach((node, index) => this.#fill(this.body.rows[index] ?? this.#row(index), node, index === selected));
  }

  #row(index) {
    const row = this.body.insertRow();
    const head = document.createElement("th");
    head.scope = "row";
    head.textContent = index + 1;
    row.append(head);
    for (const [name, type, label] of [
      ["x", "text", "across"],
      ["y", "text", "down"],
      ["corner", "checkbox", "corner"],
      ["curved", "checkbox", "curve to the next point"],
      ["edge", "text", "edge that starts here"],
    ]) {
      const box = document.createElement("input");
      Object.assign(box, { type, name, autocomplete: "off" });
      if (name === "edge") box.setAttribute("list", "edge-names");
      else if (type === "text") Object.assign(box, { inputMode: "decimal", size: 7, className: "length" });
      box.setAttribute("aria-label", `point ${index + 1}, ${label}`);
      row.insertCell().append(box);
    }
    return row;
  }

  #fill(row, node, isChosen) {
    row.toggleAttribute("aria-current", isChosen);
    for (const box of row.querySelectorAll("input")) {
      if (box.type === "checkbox") box.checked = node[box.name];
      else if (box !== document.activeElement || box.name === "edge") {
        box.value = box.name === "edge" ? node.edge : (node[box.name] / this.unit.mm).toFixed(3);
      }
    }
  }

  #typed(box) {
    const index = box.closest("tr").rowIndex - 1;
    let value = box.type === "checkbox" ? box.checked : box.value.trim();
    if (box.name === "x" || box.name === "y") {
      value = Number(box.value.replace(",", ".")) * this.unit.mm;
      box.toggleAttribute("aria-invalid", !Number.isFinite(value));
      if (!Number.isFinite(value)) return;
    }
    this.drawing.changeNode(index, { [box.name]: value });
  }

  #entered(box) {
    const index = box.closest("tr").rowIndex - 1;
    if (index !== this.drawing.selected) this.drawing.select(index);
  }
}
