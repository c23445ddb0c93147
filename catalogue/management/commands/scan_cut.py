"""The short-lived process behind the scan pages: cuts one picture into tiles, then ends."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.actions.scan import cut_calibration, cut_scan


class Command(BaseCommand):
    help = "Cut one scan or flattened scan into tiles; the pages start this by themselves."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("kind", choices=("scan", "calibration"))
        parser.add_argument("pk", type=int, help="the key of its row")

    def handle(self, *args: Any, **options: Any) -> None:
        {"scan": cut_scan, "calibration": cut_calibration}[options["kind"]](options["pk"])
