"""What the commands share that reckon a sum of pattern work from a JSON file."""

import json
import sys
from argparse import RawDescriptionHelpFormatter
from collections.abc import Iterator
from typing import Any, ClassVar

from django.core.management.base import BaseCommand, CommandParser

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.file_head import read_text
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.table import of_command
from fitting.pattern.exchange.sum_file import answer_text, reckon_file


class SumCommand(BaseCommand):
    """`command` is its own name, by which the sums say that a file of it may hold them."""

    command: ClassVar[str]
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        sums = of_command(self.command)
        told = (line for one in sums.values() for line in (f"  {one.key}: {one.says}", *_told(one.inputs)))
        parser.epilog = "\n".join(["What a table holds; lengths are text with a unit:", *told])
        parser.formatter_class = RawDescriptionHelpFormatter
        parser.add_argument(
            "file", metavar="FILE", help=f"JSON with one of: {', '.join(sums)}; - reads standard input"
        )
        parser.add_argument("--json", action="store_true", help="print JSON with every figure unrounded")
        parser.add_argument("--units", choices=("in", "cm"), default="in", help="units of text (default: in)")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            answer = reckon_file(read_text(options["file"]), command=self.command)
        except Faults as faults:
            for fault in faults.faults:
                self.stderr.write(str(fault))
            sys.exit(2)
        if options["json"]:
            # Escaped, so that any terminal and any pipe can carry it.
            self.stdout.write(json.dumps(answer, indent=2, allow_nan=False))
        else:
            self.stdout.write(answer_text(answer, system=options["units"]))


def _told(inputs: tuple[ask.Input | ask.Group | ask.InputRows, ...], indent: str = "    ") -> Iterator[str]:
    """A line for each key, those of a table or of a list of tables beneath it."""
    for one in inputs:
        if isinstance(one, ask.Group):
            yield f"{indent}{one.name}: a table" + (", if any" if one.needed else "")
            yield from _told(one.inputs, indent + "  ")
        elif isinstance(one, ask.InputRows):
            yield f"{indent}{one.name}: a list of tables. {one.caption}, with"
            yield from _told(one.columns, indent + "  ")
        else:
            yield f"{indent}{one.name}: {_said(one)}"


def _said(one: ask.Input) -> str:
    """Its label, of a row that of any; the words of a choice, what stands in for it, and what to know."""
    said = one.label.replace("{at}", "n").removesuffix(", percent")
    if isinstance(one, ask.Percent):
        said += ", as a part of 1"
    if isinstance(one, ask.Choice):
        said += f": {', '.join(one.words)}"
    default = str(getattr(one, "default", None) or "").replace("{at}", "n")
    if default:
        said += f" (left out: {default})"
    elif one.is_needed or isinstance(one, ask.Choice):
        said += " (must be given)"
    return f"{said}. {one.hint}" if isinstance(one.hint, str) and one.hint else said
