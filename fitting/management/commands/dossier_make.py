"""The short-lived process behind the dossier page: makes the PDF of one waiting row, then ends."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from fitting.dossier.actions import make_dossier


class Command(BaseCommand):
    help = "Make one dossier that was asked for on a page; the page starts this by itself."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("pk", type=int, help="the key of its row")

    def handle(self, *args: Any, **options: Any) -> None:
        make_dossier(options["pk"])
