"""Scan, tiles, calibration, grid, outline, curve, marks, overlay; SVG and DXF out and in."""
