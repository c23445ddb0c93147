// The calibration page: each click on the scan fills the next pair of boxes; a grid that was found is drawn.

/* global ol */

import { makeBoard, overlay, toMap, toPlace } from "./board.js";

const page = document.querySelector("[data-calibrating]");
const given = JSON.parse(document.getElementById("board-data").textContent);
const element = page.querySelector("[data-board]");
const map = makeBoard(element, given);
const rows = [...page.querySelectorAll("[data-point]")].map((row) => [...row.querySelectorAll("input")]);
const source = overlay(map);
let next = 0;

const { Fill, Stroke, Style, Circle, Text } = ol.style;
const dot = (text) =>
  new Style({
    image: new Circle({ radius: 5, stroke: new Stroke({ color: "#a31d33", width: 2 }) }),
    text: new Text({ text, offsetX: 14, font: "bold 15px sans-serif", fill: new Fill({ color: "#a31d33" }), stroke: new Stroke({ color: "#fff", width: 3 }) }),
  });

function draw() {
  for (const feature of source.getFeatures()) if (!feature.get("grid")) source.removeFeature(feature);
  rows.forEach(([x, y], index) => {
    if (x.value === "" || y.value === "") return;
    const feature = new ol.Feature(new ol.geom.Point(toMap({ x: Number(x.value), y: Number(y.value) })));
    feature.setStyle(dot(given.pairs ? (index % 2 ? "" : String(index / 2 + 1)) : String(index + 1)));
    source.addFeature(feature);
  });
  for (let index = 0; given.pairs && index < rows.length; index += 2) drawLength([...rows[index], ...rows[index + 1]]);
}

// From one end of a known length to the other.
function drawLength(boxes) {
  if (boxes.some((box) => box.value === "")) return;
  const [x1, y1, x2, y2] = boxes.map((box) => Number(box.value));
  const feature = new ol.Feature(new ol.geom.LineString([{ x: x1, y: y1 }, { x: x2, y: y2 }].map(toMap)));
  feature.setStyle(new Style({ stroke: new Stroke({ color: "#a31d33", width: 1.5 }) }));
  source.addFeature(feature);
}

// Lines of the grid found, every square of it, over the picture.
function drawGrid(matrix) {
  const [[a, b, c], [d, e, f], [g, h, i]] = matrix;
  const squareOf = ({ x, y }) => {
    const w = g * x + h * y + i;
    return [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
  };
  const back = inverse(matrix);
  const placeOf = (u, v) => {
    const w = back[2][0] * u + back[2][1] * v + back[2][2];
    return { x: (back[0][0] * u + back[0][1] * v + back[0][2]) / w, y: (back[1][0] * u + back[1][1] * v + back[1][2]) / w };
  };
  const corners = [[0, 0], [given.width, 0], [given.width, given.height], [0, given.height]].map(([x, y]) => squareOf({ x, y }));
  const range = (axis) => [Math.ceil(Math.min(...corners.map((at) => at[axis]))), Math.floor(Math.max(...corners.map((at) => at[axis])))];
  const [[left, right], [top, bottom]] = [range(0), range(1)];
  const lines = [];
  for (let u = left; u <= right; u += 1) lines.push([placeOf(u, top), placeOf(u, bottom)].map(toMap));
  for (let v = top; v <= bottom; v += 1) lines.push([placeOf(left, v), placeOf(right, v)].map(toMap));
  const feature = new ol.Feature({ geometry: new ol.geom.MultiLineString(lines), grid: true });
  feature.setStyle(new Style({ stroke: new Stroke({ color: "rgba(163,29,51,0.7)", width: 1 }) }));
  source.addFeature(feature);
}

function inverse([[a, b, c], [d, e, f], [g, h, i]]) {
  const whole = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    [(e * i - f * h) / whole, (c * h - b * i) / whole, (b * f - c * e) / whole],
    [(f * g - d * i) / whole, (a * i - c * g) / whole, (c * d - a * f) / whole],
    [(d * h - e * g) / whole, (b * g - a * h) / whole, (a * e - b * d) / whole],
  ];
}

function place({ x, y }) {
  if (!rows.length) return;
  const [across, down] = rows[next];
  across.value = x.toFixed(2);
  down.value = y.toFixed(2);
  next = (next + 1) % rows.length;
  tell();
  draw();
}

function tell() {
  const name = rows[next]?.[0].closest("[data-point]").dataset.point;
  if (name) page.querySelector("[data-status]").textContent = `Next: the ${name}.`;
}

map.on("singleclick", (event) => place(toPlace(event.coordinate)));
element.addEventListener("keydown", (event) => {
  const by = map.getView().getResolution() * (event.shiftKey ? 40 : 4);
  const [x, y] = map.getView().getCenter();
  const moves = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, by], ArrowDown: [0, -by] };
  if (moves[event.key]) map.getView().setCenter([x + moves[event.key][0], y + moves[event.key][1]]);
  else if (event.key === "+" || event.key === "=") map.getView().adjustZoom(1);
  else if (event.key === "-") map.getView().adjustZoom(-1);
  else if (event.key === "Enter") place(toPlace([x, y]));
  else return;
  event.preventDefault();
});
rows.forEach((boxes, index) => {
  for (const box of boxes) {
    box.addEventListener("change", draw);
    box.addEventListener("focus", () => {
      next = index;
      tell();
    });
  }
});
if (given.grid) drawGrid(given.grid);
tell();
draw();
page.toggleAttribute("data-ready", true);
