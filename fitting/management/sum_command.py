"""What the commands share that do one sum of pattern work from a JSON file."""

import json
import sys
from argparse import RawDescriptionHelpFormatter
from collections.abc import Mapping
from typing import Any, ClassVar

from django.core.management.base import BaseCommand, CommandParser

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.file_head import read_text
from fitting.pattern.exchange.sum_file import Kind, answer_text, reckon_file


class SumCommand(BaseCommand):
    """`format` is what the file says it is, `kinds` the tables of which it holds one."""

    format: ClassVar[str]
    kinds: ClassVar[Mapping[str, Kind]]
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        kinds = ", ".join(self.kinds)
        # What a kind's reader says of itself is the description of its table.
        told = (f"  {kind}: {' '.join((read.__doc__ or '').split())}" for kind, read in self.kinds.items())
        parser.epilog = "\n".join(["What a table holds; lengths are text with a unit:", *told])
        parser.formatter_class = RawDescriptionHelpFormatter
        parser.add_argument("file", metavar="FILE", help=f"JSON with one of: {kinds}; - reads standard input")
        parser.add_argument("--json", action="store_true", help="print JSON with every figure unrounded")
        parser.add_argument("--units", choices=("in", "cm"), default="in", help="units of text (default: in)")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            answer = reckon_file(read_text(options["file"]), format=self.format, kinds=self.kinds)
        except Faults as faults:
            for fault in faults.faults:
                self.stderr.write(str(fault))
            sys.exit(2)
        if options["json"]:
            # Escaped, so that any terminal and any pipe can carry it.
            self.stdout.write(json.dumps(answer, indent=2, allow_nan=False))
        else:
            self.stdout.write(answer_text(answer, system=options["units"]))
