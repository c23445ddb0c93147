"""Edges that are sewn together from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand
from fitting.pattern.exchange.seams_file import FORMAT, KINDS


class Command(SumCommand):
    help = (
        "Two edges that are sewn together, or a sleeve in its armhole: do they match, and where are notches."
    )
    format, kinds = FORMAT, KINDS
