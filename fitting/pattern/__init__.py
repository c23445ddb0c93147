"""Alteration plan, grading, seams walked, pleats, skirts, bias, sheets to print."""
