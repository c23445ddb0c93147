"""A skirt as part of a circle, in gores or over a support, from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand


class Command(SumCommand):
    help = "A skirt as part of a circle, in gores, or over a support: its radii, curves and lengths."
    command = "skirt"
