"""Bias strips from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand


class Command(SumCommand):
    help = "Bias strips from a rectangle, a square for a length, or strips across a cloth."
    command = "bias"
