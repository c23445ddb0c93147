"""The short-lived process behind every page that waits: does what it is told in turn, then ends."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.workroom.work.engine import do_in_turn


class Command(BaseCommand):
    help = "Do long work that was asked for on a page; the pages start this by themselves."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("keys", metavar="KEY", type=int, nargs="+", help="the key of its row")

    def handle(self, *args: Any, **options: Any) -> None:
        do_in_turn(options["keys"])
