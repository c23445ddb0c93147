"""One comparison and its routes from a JSON file. No database is touched."""

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.file_head import read_text
from fitting.comparing.calculation.assessment import assess
from fitting.comparing.exchange.answer import assessment_to_json
from fitting.comparing.exchange.case_file import read_case
from fitting.comparing.exchange.plain_text import assessment_text


class Command(BaseCommand):
    help = "Compare a plate with a wearer and judge every route to the pattern, from a JSON file."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", metavar="FILE", help="the case as JSON; - reads standard input")
        parser.add_argument("--json", action="store_true", help="print JSON with every figure unrounded")
        parser.add_argument(
            "--units", choices=("in", "cm"), default="in", help="units of sums and sentences (default: in)"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            case_file = read_case(read_text(options["file"]))
        except Faults as faults:
            for fault in faults.faults:
                self.stderr.write(str(fault))
            sys.exit(2)
        system = options["units"]
        assessment = assess(case_file.case, system=system)
        if options["json"]:
            answer = assessment_to_json(assessment, defaults_used=case_file.defaults_used, system=system)
            # Escaped, so that any terminal and any pipe can carry it.
            self.stdout.write(json.dumps(answer, indent=2, allow_nan=False))
        else:
            self.stdout.write(assessment_text(assessment, case_file.defaults_used, system=system))
