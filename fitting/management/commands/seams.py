"""Edges that are sewn together from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand


class Command(SumCommand):
    help = (
        "Two edges that are sewn together, or a sleeve in its armhole: do they match, and where are notches."
    )
    command = "seams"
