"""Writes a workroom, with the originals of its photographs and scans, into one archive."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from catalogue.management.workroom_named import workroom_named
from catalogue.workroom.archive.packing import MAY_CARRY, write_archive
from catalogue.workroom.files import written_whole


class Command(BaseCommand):
    help = "Write a workroom into one archive: catalogue, outfits, photographs. No wearers unless you say so."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, metavar="FILE", help="the archive to write, a .zip")
        parser.add_argument(
            "--personal",
            action="store_true",
            help="with wearers, their measures, and all that was made for them",
        )
        parser.add_argument("--workroom", metavar="NAME", help="which workroom, where there are several")

    def handle(self, *args: Any, file: Path, workroom: str | None, personal: bool, **options: Any) -> None:
        chosen = workroom_named(workroom)
        try:
            with written_whole(file) as to:
                written = write_archive(chosen, to, at=timezone.now(), personal=personal)
        except OSError as fault:
            raise CommandError(f"{file} cannot be written: {fault.strerror}.") from fault
        counts = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in written.counts.items())
        self.stdout.write(f"{chosen}: {counts}, in {file}.")
        for sentence in written.left_out:
            self.stderr.write(sentence)
        if written.counts["photographs"] or written.counts["scans"]:
            self.stdout.write(MAY_CARRY)
