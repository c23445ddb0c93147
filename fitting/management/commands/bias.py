"""Bias strips from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand
from fitting.pattern.exchange.bias_file import FORMAT, KINDS


class Command(SumCommand):
    help = "Bias strips from a rectangle, a square for a length, or strips across a cloth."
    format, kinds = FORMAT, KINDS
