"""Sees to the bin, and to what killed processes left: `serve` does so when it starts, and once a day."""

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from catalogue.workroom.actions.deletion import sweep
from catalogue.workroom.archive.actions import sweep_archives
from catalogue.workroom.work.engine import sweep_work


class Command(BaseCommand):
    help = "Delete for good what was deleted thirty days ago. Where another server serves: once a day."

    def handle(self, *args: Any, **options: Any) -> None:
        if count := sweep(at=timezone.now()):
            self.stdout.write(f"Gone for good: {count}.")
        sweep_archives(at=timezone.now())
        sweep_work(at=timezone.now())
