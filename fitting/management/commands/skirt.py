"""A skirt as part of a circle, in gores or over a support, from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand
from fitting.pattern.exchange.skirt_file import FORMAT, KINDS


class Command(SumCommand):
    help = "A skirt as part of a circle, in gores, or over a support: its radii, curves and lengths."
    format, kinds = FORMAT, KINDS
