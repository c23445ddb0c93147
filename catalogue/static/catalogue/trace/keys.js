// Everything on the board with the keyboard: a crosshair to place things, the arrows to move a chosen point.

import { pointOn, sideOf } from "./curve.js";
import { toMap, toPlace } from "./board.js";

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export function listen(element, map, drawing, sketch, pointer) {
  const step = () => map.getView().getResolution();
  const crosshair = () => (sketch.cursor ??= toPlace(map.getView().getCenter()));

  function move([x, y], far) {
    const by = step() * far;
    // With another tool the chosen point stays where it is: the arrows go on to the next place.
    if (pointer.tools.tool === "move" && drawing.selected !== null) {
      const node = drawing.nodes[drawing.selected];
      drawing.changeNode(drawing.selected, { x: node.x + x * by, y: node.y + y * by });
      return;
    }
    const at = crosshair();
    sketch.cursor = { x: at.x + x * by * 4, y: at.y + y * by * 4 };
    sketch.draw();
    keepInSight(map, sketch.cursor);
  }

  function choose(by) {
    const count = drawing.nodes.length;
    if (!count) return;
    const at = drawing.selected === null ? (by > 0 ? -1 : 0) : drawing.selected;
    drawing.select((at + by + count) % count);
    keepInSight(map, drawing.nodes[drawing.selected]);
  }

  const chosen = (act) => () => drawing.selected !== null && act(drawing.selected, drawing.nodes[drawing.selected]);
  const keys = {
    Enter: () => {
      pointer.place(crosshair(), step() * 9);
      sketch.draw();
    },
    Escape: () => {
      sketch.pending = [];
      drawing.select(null);
    },
    Delete: chosen((index) => drawing.removeNode(index)),
    Backspace: chosen((index) => drawing.removeNode(index)),
    c: chosen((index, node) => drawing.changeNode(index, { corner: !node.corner })),
    s: chosen((index, node) => drawing.changeNode(index, { curved: !node.curved })),
    i: chosen((index) => drawing.splitSide(index, pointOn(sideOf(drawing.nodes, index), 0.5))),
    n: () => choose(1),
    p: () => choose(-1),
    "+": () => map.getView().adjustZoom(1),
    "=": () => map.getView().adjustZoom(1),
    "-": () => map.getView().adjustZoom(-1),
  };

  element.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey) {
      const key = event.key.toLowerCase();
      if (key === "z" && !event.shiftKey) drawing.undo();
      else if (key === "y" || (key === "z" && event.shiftKey)) drawing.redo();
      else return;
    } else if (ARROWS[event.key]) move(ARROWS[event.key], event.shiftKey ? 10 : 1);
    else if (keys[event.key]) keys[event.key]();
    else return;
    event.preventDefault();
  });
}

export function keepInSight(map, place) {
  const [x, y] = map.getPixelFromCoordinate(toMap(place)) ?? [0, 0];
  const [wide, high] = map.getSize();
  if (x < 20 || y < 20 || x > wide - 20 || y > high - 20) map.getView().setCenter(toMap(place));
}
