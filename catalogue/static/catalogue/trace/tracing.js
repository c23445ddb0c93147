// The tracing page: joins board, drawing, sketch, hands and table. All of the reckoning that counts is the server's.

import { makeBoard } from "./board.js";
import { mirrored } from "./curve.js";
import { Drawing } from "./drawing.js";
import { Figures } from "./figures.js";
import { Keeper } from "./keeper.js";
import { listen, keepInSight } from "./keys.js";
import { Pointer } from "./pointer.js";
import { Sketch } from "./sketch.js";
import { PointTable } from "./table.js";

const page = document.querySelector("[data-tracing]");
const given = JSON.parse(document.getElementById("tracing-data").textContent);
const part = (name) => page.querySelector(`[data-${name}]`);
const board = part("board");

const drawing = new Drawing(given.drawing, `tracing ${given.plate}`);
const map = makeBoard(board, given.board);
const sketch = new Sketch(map, drawing);
const tools = {
  get tool() {
    return page.querySelector("[name=tool]:checked").value;
  },
  get curve() {
    return page.querySelector("[name=line]:checked").value === "curve";
  },
  get line() {
    return (this.tool === "level" ? part("level-name") : part("length-name")).value;
  },
  get snaps() {
    return part("snaps").checked;
  },
  get snapsToGrid() {
    return part("snaps-to-grid")?.checked;
  },
  square: given.square_mm,
};
const pointer = new Pointer(map, drawing, sketch, tools);
listen(board, map, drawing, sketch, pointer);
new PointTable(part("points"), drawing, given.unit);
const figures = new Figures(part("figures"), drawing, given.unit, given.labels);
const keeper = new Keeper(given.keep, drawing, part("status"), (said) => figures.answered(said));
figures.answered(given.reckoned);

function show() {
  const node = drawing.nodes[drawing.selected];
  for (const button of page.querySelectorAll("[data-needs-point]")) button.disabled = !node;
  part("chosen").textContent = node
    ? `Point ${drawing.selected + 1} of ${drawing.nodes.length}: ${node.corner ? "corner" : "smooth"}, ${node.curved ? "curve" : "straight"} to the next`
    : `${drawing.nodes.length} points`;
  part("edge").value = node?.edge ?? "";
  page.querySelector("[data-act=undo]").disabled = !drawing.past.length;
  page.querySelector("[data-act=redo]").disabled = !drawing.future.length;
  listMarks();
}

function listMarks() {
  const rows = [
    ...(drawing.current?.marks ?? []).map((mark, index) => [`${mark.kind} ${mark.line}`, () => drawing.removeMark(index)]),
    ...drawing.levels.map((level, index) => [
      `${given.labels[level.line]} level`,
      () => drawing.change({ levels: drawing.levels.filter((_, at) => at !== index) }),
    ]),
  ];
  part("marks").replaceChildren(
    ...rows.map(([name, remove]) => {
      const row = document.createElement("li");
      const button = document.createElement("button");
      Object.assign(button, { type: "button", className: "quiet small", textContent: `Remove ${name}`, onclick: remove });
      row.append(button);
      return row;
    }),
  );
}

const point = (change) => () => drawing.changeNode(drawing.selected, change(drawing.nodes[drawing.selected]));
const acts = {
  undo: () => drawing.undo(),
  redo: () => drawing.redo(),
  corner: point((node) => ({ corner: !node.corner })),
  curved: point((node) => ({ curved: !node.curved })),
  remove: () => drawing.removeNode(drawing.selected),
  next: () => {
    drawing.select(((drawing.selected ?? -1) + 1) % drawing.nodes.length);
    keepInSight(map, drawing.nodes[drawing.selected]);
  },
  mirror: () => {
    const fold = drawing.current.marks.find((mark) => mark.kind === "fold");
    const { nodes } = drawing;
    const [start, end] = fold
      ? fold.points.map(([x, y]) => ({ x, y }))
      : [nodes[drawing.selected], nodes[(drawing.selected + 1) % nodes.length]];
    drawing.changePiece({ nodes: mirrored(nodes, start, end) });
  },
  copy: () => {
    const from = drawing.state.pieces.find((one) => one.piece === Number(part("copy-from").value));
    if (from?.nodes.length) drawing.changePiece({ nodes: from.nodes, marks: from.marks });
  },
};
page.addEventListener("click", (event) => acts[event.target.dataset.act]?.());
part("edge").addEventListener("change", (event) => {
  if (drawing.selected !== null) drawing.changeNode(drawing.selected, { edge: event.target.value.trim() });
});
part("piece").addEventListener("change", (event) => drawing.choosePiece(Number(event.target.value)));
for (const event of ["changed", "selected"]) drawing.addEventListener(event, show);
drawing.choosePiece(Number(part("piece").value));
page.toggleAttribute("data-ready", true);
addEventListener("pagehide", () => keeper.later());
