"""Deletes for good what was kept for thirty days after it was deleted. `serve` does so itself, once a day."""

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from catalogue.workroom.actions.deleted import sweep


class Command(BaseCommand):
    help = "Delete for good what was deleted thirty days ago. Where another server serves: once a day."

    def handle(self, *args: Any, **options: Any) -> None:
        if count := sweep(at=timezone.now()):
            self.stdout.write(f"Gone for good: {count}.")
