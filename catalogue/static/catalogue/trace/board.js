// The picture in tiles, with pan, zoom and pinch. A board's places are {x, y}, y down, in the unit of its tiles.

/* global ol */

// A board has no size before its style sheet has come, which a script does not wait for everywhere.
if (document.readyState !== "complete") await new Promise((ready) => addEventListener("load", ready, { once: true }));

export const toMap = (place) => [place.x, -place.y];
export const toPlace = ([x, y]) => ({ x, y: -y });

export function makeBoard(element, { tiles, width, height, deepest, left = 0, top = 0, unit = 1 }) {
  const extent = [left, -(top + height * unit), left + width * unit, -top];
  const resolutions = Array.from({ length: deepest + 1 }, (_, level) => unit * 2 ** (deepest - level));
  const projection = new ol.proj.Projection({ code: "plate", units: "pixels", extent });
  const source = new ol.source.TileImage({
    projection,
    tileGrid: new ol.tilegrid.TileGrid({ extent, origin: [left, -top], resolutions, tileSize: 512 }),
    tileUrlFunction: ([level, column, row]) => `${tiles}${level}/${column}/${row}/`,
  });
  const map = new ol.Map({
    target: element,
    moveTolerance: 3, // a finger or a pen is never quite still
    layers: [new ol.layer.Tile({ source, extent })],
    controls: [new ol.control.Zoom({ zoomInTipLabel: "Nearer", zoomOutTipLabel: "Farther" })],
    interactions: ol.interaction.defaults.defaults({ doubleClickZoom: false, altShiftDragRotate: false, pinchRotate: false, keyboard: false }),
    view: new ol.View({
      projection,
      extent,
      showFullExtent: true,
      constrainOnlyCenter: true,
      minResolution: unit / 8,
      maxResolution: resolutions[0] * 2,
    }),
  });
  map.getView().fit(extent, { padding: [8, 8, 8, 8] });
  return map;
}

// Ink of the page's palette, so that day and night come by themselves.
export function ink(name) {
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
}

export function overlay(map, { declutter = false } = {}) {
  const source = new ol.source.Vector();
  map.addLayer(new ol.layer.Vector({ source, declutter, updateWhileInteracting: true, updateWhileAnimating: true }));
  return source;
}
