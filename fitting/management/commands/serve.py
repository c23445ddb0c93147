"""Serves the workroom in the data folder, after bringing its database up to date."""

import threading
import time
from argparse import ArgumentParser
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connection

from catalogue.workroom.models import Member
from fitting.site.server import HOST, PORT, serve

A_DAY_S = 24 * 60 * 60


def _sweep_daily() -> None:
    while True:
        time.sleep(A_DAY_S)
        call_command("sweep")
        connection.close()


class Command(BaseCommand):
    help = "Serve the workroom on this machine."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--host", default=HOST, help="address to listen on (default: %(default)s)")
        parser.add_argument("--port", type=int, default=PORT, help="default: %(default)s")

    def handle(self, *args: Any, host: str, port: int, **options: Any) -> None:
        call_command("migrate", verbosity=0, interactive=False)
        call_command("reindex", missing=True)
        call_command("sweep")
        threading.Thread(target=_sweep_daily, daemon=True).start()
        if not Member.objects.exists():
            self.stdout.write(
                "Nobody keeps a workroom here yet. In another window: python3 manage.py keeper NAME"
            )
        try:
            serve(
                host=host,
                port=port,
                ready=lambda address: self.stdout.write(f"Serving {address} (Ctrl+C ends)"),
            )
        except OSError as fault:
            raise CommandError(
                f"{host}:{port} cannot be listened on: {fault.strerror}. Try --port."
            ) from fault
