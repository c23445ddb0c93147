// The tracing page: joins board, drawing, sketch, hands and tables. All of the reckoning that counts is the server's.

import { makeBoard } from "./board.js";
import { Drawing } from "./drawing.js";
import { Figures } from "./figures.js";
import { Keeper } from "./keeper.js";
import { chooseNext, listen } from "./keys.js";
import { MarkTable } from "./mark_table.js";
import { copied, turnedOver, wholeOf } from "./mirroring.js";
import { pointWord } from "./outline.js";
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
  get mark() {
    const mark = given.tools[this.tool];
    return mark && { ...mark, line: part(mark.kind === "level" ? "level-name" : "length-name").value };
  },
  get snaps() {
    return part("snaps").checked;
  },
  get snapsToGrid() {
    return part("snaps-to-grid")?.checked;
  },
  square: given.square_mm,
  told: () => tell(),
};
const pointer = new Pointer(map, drawing, sketch, tools);
listen(board, map, drawing, sketch, pointer);
new PointTable(part("points"), drawing, given.unit);
new MarkTable(part("marks"), drawing, given.unit, given);
const figures = new Figures(part("figures"), drawing, given.unit, given.labels);
const keeper = new Keeper(given.keep, drawing, part("status"), (said) => figures.answered(said));
figures.answered(given.reckoned);

// What is chosen, or what the next press will be.
function tell() {
  const node = drawing.nodes[drawing.selected];
  const { chosen } = drawing;
  const { mark } = tools;
  const count = sketch.pending.length;
  part("finish").disabled = !(mark && count >= mark.fewest);
  let said = `${drawing.nodes.length} points`;
  if (node) {
    const way = `${node.corner ? "corner" : "smooth"}, ${node.curved ? "curve" : "straight"} to the next`;
    said = `Point ${drawing.selected + 1} of ${drawing.nodes.length}: ${way}`;
  } else if (chosen) {
    const kind = chosen.of === "level" ? "level" : drawing.marks[chosen.index].kind;
    const { points } = (chosen.of === "level" ? drawing.levels : drawing.marks)[chosen.index];
    said = `${kind} ${chosen.index + 1}: ${pointWord(given.points, kind, points.length, chosen.at)}`;
  }
  if (mark) said = `Next: ${pointWord(given.points, mark.kind, mark.most, count)} of the ${mark.kind}`;
  part("chosen").textContent = said;
}

function show() {
  const node = drawing.nodes[drawing.selected];
  for (const button of page.querySelectorAll("[data-needs-point]")) button.disabled = !node;
  page.querySelector("[data-act=remove]").disabled = !drawing.chosen;
  part("edge").value = node?.edge ?? "";
  part("edge").disabled = !node;
  part("piece").value = drawing.piece;
  page.querySelector("[data-act=undo]").disabled = !drawing.past.length;
  page.querySelector("[data-act=redo]").disabled = !drawing.future.length;
  tell();
}

const point = (change) => () => drawing.changeNode(drawing.selected, change(drawing.nodes[drawing.selected]));
const acts = {
  undo: () => drawing.undo(),
  redo: () => drawing.redo(),
  corner: point((node) => ({ corner: !node.corner })),
  curved: point((node) => ({ curved: !node.curved })),
  remove: () => drawing.remove(drawing.chosen),
  next: () => chooseNext(map, drawing, 1),
  finish: () => {
    pointer.finish();
    sketch.draw();
    tell();
  },
  line: async () => {
    const { piece, nodes } = drawing;
    const laid = await keeper.laidOnLine(given.onto_line[piece], nodes);
    if (laid && nodes === drawing.nodes) drawing.changePiece({ nodes: laid });
  },
  mirror: () => drawing.changePiece(turnedOver(drawing.current, drawing.selected)),
  unfold: () => drawing.changePiece(wholeOf(drawing.current, drawing.selected)),
  copy: () => {
    const from = drawing.state.pieces.find((one) => one.piece === Number(part("copy-from").value));
    if (from?.nodes.length && from !== drawing.current) drawing.changePiece(copied(from));
  },
};
page.addEventListener("click", (event) => acts[event.target.dataset.act]?.());
page.addEventListener("change", (event) => {
  if (event.target.name !== "tool") return;
  sketch.pending = [];
  sketch.draw();
  tell();
});
part("edge").addEventListener("change", (event) => {
  if (drawing.selected !== null) drawing.changeNode(drawing.selected, { edge: event.target.value.trim() });
});
part("piece").addEventListener("change", (event) => drawing.choosePiece(Number(event.target.value)));
for (const event of ["changed", "selected"]) drawing.addEventListener(event, show);
drawing.choosePiece(Number(part("piece").value));
page.toggleAttribute("data-ready", true);
addEventListener("pagehide", () => keeper.atOnce());
