"""Pleats, tucks, gathers or tiers from a JSON file. No database is touched."""

from fitting.management.sum_command import SumCommand


class Command(SumCommand):
    help = "Pleats, tucks, gathers or tiers: any that are not given, from the others."
    command = "fullness"
