"""Pieces of a pattern and the steps that change them, from a JSON file. No database is touched."""

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import System
from catalogue.tracing.showing.svg import svg_of
from catalogue.workroom.reader.file_head import read_text, write_text
from fitting.pattern.calculation.working.steps import Outcome, take
from fitting.pattern.exchange.pattern_answer import pattern_text, pattern_to_json
from fitting.pattern.exchange.pattern_file import PatternFile, read_pattern
from fitting.pattern.showing.pattern_outlines import drawing_of_pattern


class Command(BaseCommand):
    help = (
        "Change the pieces of a pattern step by step, and say what they come to, from a JSON file. A curved"
        " side is the cubic of the tracing desk: at a point that is no corner, between two curved sides, its"
        " tangent is that of the parabola through the point and its neighbours. From [0, 0] over [30, 40] to"
        " [100, 40] it is (7 × (0.6, 0.8) + 5 × (1, 0)) ÷ 12 = (0.767, 0.467). Each handle lies a third of"
        " the straight way along the tangent: after the point at (30 + 0.767 × 70/3, 40 + 0.467 × 70/3)."
        " Beside a straight side the curve takes its direction; at a corner it bends as at its other end."
    )
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", metavar="FILE", help="pieces and steps as JSON; - reads standard input")
        parser.add_argument("--json", action="store_true", help="print JSON with every figure unrounded")
        parser.add_argument("--svg", metavar="FILE", help="draw the pieces at full size, in millimetres")
        parser.add_argument("--units", choices=("in", "cm"), default="in", help="units of text (default: in)")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            given = read_pattern(read_text(options["file"]))
            steps = _taken(given, options["units"])
            pattern = steps[-1][1].pattern if steps else given.pattern
            answer = pattern_to_json(pattern, steps, system=options["units"])
            if options["svg"]:
                write_text(options["svg"], svg_of(drawing_of_pattern(pattern), "Pattern at full size"))
        except Faults as faults:
            for fault in faults.faults:
                self.stderr.write(str(fault))
            sys.exit(2)
        if options["json"]:
            # Escaped, so that any terminal and any pipe can carry it.
            self.stdout.write(json.dumps(answer, indent=2, allow_nan=False))
        else:
            told = pattern_text(pattern, steps, defaults_used=given.defaults_used, system=options["units"])
            self.stdout.write(told)


def _taken(given: PatternFile, system: System) -> list[tuple[Any, Outcome]]:
    """Every step in turn. Raises Faults at the first that cannot be taken, by its place in the file."""
    pattern, found = given.pattern, []
    for index, asked in enumerate(given.steps):
        try:
            taken = take(pattern, asked, system)
        except Faults as faults:
            where = f"steps[{index}]"
            raise Faults(
                Fault(f"{where}.{fault.where}" if fault.where else where, fault.sentence)
                for fault in faults.faults
            ) from faults
        found.append((asked, taken))
        pattern = taken.pattern
    return found
