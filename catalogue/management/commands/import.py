"""Takes an archive into a workroom: all of it or, where anything is wrong, nothing."""

import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from catalogue.lengths.calculation.errors import Faults
from catalogue.management.workroom_named import workroom_named
from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.taking import IntakeReport, take_archive

FAULTY = 2


class Command(BaseCommand):
    help = "Take an archive of a catalogue into a workroom. Rows that are there already are not doubled."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, metavar="FILE", help="an archive that export wrote")
        parser.add_argument("--workroom", metavar="NAME", help="which workroom, where there are several")
        parser.add_argument("--try", action="store_true", dest="only_try", help="say what would be done")
        parser.add_argument(
            "--overwrite",
            action="store_true",
            help="where both differ, the archive's is right",
        )

    def handle(
        self, *args: Any, file: Path, workroom: str | None, only_try: bool, overwrite: bool, **options: Any
    ) -> None:
        chosen = workroom_named(workroom)
        try:
            with file.open("rb") as opened:
                taken = take_archive(
                    OpenedArchive(opened), workroom=chosen, overwrite=overwrite, only_try=only_try
                )
        except OSError as fault:
            raise CommandError(f"{file} cannot be read: {fault.strerror}.") from fault
        except Faults as faulty:
            self.stderr.write(str(faulty))
            sys.exit(FAULTY)
        self.say(taken, f"Nothing is done yet. In {chosen} would be" if only_try else f"In {chosen} are")

    def say(self, taken: IntakeReport, start: str) -> None:
        for word, rows in taken.in_words():
            self.stdout.write(f"{start} {word}: {rows}.")
        for name in taken.differing:
            self.stdout.write(f"Differs: {name}")
