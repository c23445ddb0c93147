// Everything on the board with the keyboard: a crosshair to place things, the arrows to move what is chosen.

import { pointOn } from "./curve.js";
import { sideOf } from "./outline.js";
import { toMap, toPlace } from "./board.js";

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export function listen(element, map, drawing, sketch, pointer) {
  const step = () => map.getView().getResolution();
  const crosshair = () => (sketch.cursor ??= toPlace(map.getView().getCenter()));

  function move([x, y], far) {
    const by = step() * far;
    // With another tool what is chosen stays where it is: the arrows go on to the next place.
    if (pointer.tools.tool === "move" && drawing.chosen) {
      const at = drawing.placeOf(drawing.chosen);
      drawing.move(drawing.chosen, { x: at.x + x * by, y: at.y + y * by });
      return;
    }
    const at = crosshair();
    sketch.cursor = { x: at.x + x * by * 4, y: at.y + y * by * 4 };
    sketch.draw();
    keepInSight(map, sketch.cursor);
  }

  const node = (act) => () => drawing.selected !== null && act(drawing.selected, drawing.nodes[drawing.selected]);
  const remove = () => drawing.chosen && drawing.remove(drawing.chosen);
  const keys = {
    Enter: () => {
      pointer.place(crosshair(), step() * 9);
      sketch.draw();
    },
    Escape: () => pointer.cancel(),
    Delete: remove,
    Backspace: remove,
    c: node((index, one) => drawing.changeNode(index, { corner: !one.corner })),
    s: node((index, one) => drawing.changeNode(index, { curved: !one.curved })),
    i: node((index) => drawing.splitSide(index, pointOn(sideOf(drawing.nodes, index), 0.5))),
    n: () => chooseNext(map, drawing, 1),
    p: () => chooseNext(map, drawing, -1),
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

// Round the outline, then through the marks and the levels.
export function chooseNext(map, drawing, by) {
  const grips = [...drawing.grips()];
  if (!grips.length) return;
  const { chosen } = drawing;
  const now = grips.findIndex(({ of, index, at }) => of === chosen?.of && index === chosen.index && at === chosen.at);
  const next = now < 0 ? (by > 0 ? 0 : grips.length - 1) : (now + by + grips.length) % grips.length;
  drawing.choose(grips[next]);
  keepInSight(map, grips[next].place);
}

function keepInSight(map, place) {
  const [x, y] = map.getPixelFromCoordinate(toMap(place)) ?? [0, 0];
  const [wide, high] = map.getSize();
  if (x < 20 || y < 20 || x > wide - 20 || y > high - 20) map.getView().setCenter(toMap(place));
}
