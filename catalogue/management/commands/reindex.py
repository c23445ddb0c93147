"""Writes again what garments and sources are found by: cards and full-size measures."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand

from catalogue.workroom.index.filing import file_all, file_unfiled


class Command(BaseCommand):
    help = "Write the index of garments and sources again, from the rows that it is drawn from."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--missing", action="store_true", help="only those that are not in it yet")

    def handle(self, *args: Any, missing: bool, **options: Any) -> None:
        if missing:
            file_unfiled()
            return
        filed = file_all()
        self.stdout.write(
            f"{filed['references']} reference garments and {filed['sources']} sources are in the index."
        )
