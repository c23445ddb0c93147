"""Pieces laid on a cloth, from a JSON file. No database is touched."""

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.codec import to_json
from catalogue.workroom.reader.file_head import read_text, write_text
from fitting.laying.calculation.lay_out import lay_out
from fitting.laying.exchange.lay_answer import lay_answer, lay_text
from fitting.laying.exchange.lay_file import read_lay
from fitting.laying.showing.drawing import draw_lay


class Command(BaseCommand):
    help = "Lay pieces on a cloth and say what length to buy, from a JSON file."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", metavar="FILE", help="pieces and cloth as JSON; - reads standard input")
        parser.add_argument("--json", action="store_true", help="print JSON with every figure unrounded")
        parser.add_argument("--svg", metavar="FILE", help="draw the lay, in millimetres")
        parser.add_argument(
            "--units", choices=("in", "cm"), default="in", help="units of text and drawing (default: in)"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            lay_file = read_lay(read_text(options["file"]))
            lay = lay_out(lay_file.order)
            if options["svg"]:
                write_text(options["svg"], draw_lay(lay, system=options["units"]))
        except Faults as faults:
            for fault in faults.faults:
                self.stderr.write(str(fault))
            sys.exit(2)
        if options["json"]:
            # Escaped, so that any terminal and any pipe can carry it.
            self.stdout.write(json.dumps(to_json(lay_answer(lay)), indent=2, allow_nan=False))
        else:
            self.stdout.write(
                lay_text(
                    lay, unit=lay_file.unit, defaults_used=lay_file.defaults_used, system=options["units"]
                )
            )
