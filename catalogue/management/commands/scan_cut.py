"""The short-lived process behind the scan pages: cuts what it is told into tiles, then ends."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.tracing.actions.scan import cut_calibration, cut_scan, cut_waiting

CUTS = {"scan": cut_scan, "calibration": cut_calibration, "workroom": cut_waiting}


class Command(BaseCommand):
    help = "Cut scans or flattened scans into tiles; the pages start this by themselves."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("kind", choices=CUTS)
        parser.add_argument("pk", type=int, help="the key of its row")

    def handle(self, *args: Any, **options: Any) -> None:
        CUTS[options["kind"]](options["pk"])
