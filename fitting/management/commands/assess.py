"""One comparison and its routes from a JSON file. No database is touched."""

import json
import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.measuring.errors import Fault, Faults
from fitting.calculation.assessment import assess
from fitting.exchange.answer import assessment_to_json
from fitting.exchange.case_file import read_case
from fitting.exchange.printed import assessment_text


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
            case_file = read_case(_text_of(options["file"]))
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


def _text_of(name: str) -> str:
    """The text of a file, or of standard input. Raises Faults where there is none to read."""
    try:
        octets = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        return octets.decode("utf-8-sig")
    except OSError as error:
        raise Faults([Fault("file", f"{name} cannot be read: {error.strerror}.")]) from error
    except UnicodeDecodeError as error:
        raise Faults([Fault("file", f"{name} is not text in UTF-8.")]) from error
