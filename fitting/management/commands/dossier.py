"""A dossier from the command line, made here and now."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from catalogue.workroom.files import written_whole
from fitting.dossier.calculation import SECTIONS, USUAL
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import PdfNotPossible, print_dossier
from fitting.outfits.models.outfit import Outfit


class Command(BaseCommand):
    help = "Write the dossier of an outfit as a PDF."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("outfit", metavar="OUTFIT", help="its name or its number")
        parser.add_argument("--to", metavar="FILE", type=Path, required=True, help="the PDF to write")
        parser.add_argument("--paper", choices=Dossier.PaperSize.values, default=Dossier.PaperSize.A4)
        parser.add_argument("--cm", action="store_true", help="lengths in centimetres, not inches")
        parser.add_argument("--full", action="store_true", help="every section, for the shelf")

    def handle(self, *args: Any, **options: Any) -> None:
        outfit = _outfit_named(options["outfit"])
        timezone.activate(outfit.workroom.zone)
        values = dossier_values(
            outfit,
            sections=tuple(SECTIONS) if options["full"] else USUAL,
            paper=options["paper"],
            system="cm" if options["cm"] else "in",
            by=None,
            at=timezone.now(),
        )
        try:
            printed = print_dossier(values)
            there = options["to"].read_bytes() if options["to"].is_file() else None
            with written_whole(options["to"]) as file:
                file.write(printed.pdf)
        except PdfNotPossible as absent:
            raise CommandError(absent.sentence) from absent
        except OSError as fault:
            raise CommandError(f"{options['to']} cannot be written: {fault.strerror}.") from fault
        self.stdout.write(f"{options['to']}: {printed.pages} pages, mark {printed.mark}")
        self.stdout.write(f"SHA-256 {printed.sha256}")
        if there is not None:
            alike = "Byte for byte the same as" if there == printed.pdf else "Not the same as"
            self.stdout.write(f"{alike} the file that was there.")


def _outfit_named(words: str) -> Outfit:
    outfits = Outfit.objects.for_detail_page()
    found = list(outfits.filter(name=words)) or list(outfits.filter(pk=words) if words.isdecimal() else [])
    if len(found) == 1:
        return found[0]
    known = "; ".join(f"{outfit.pk} {outfit}" for outfit in Outfit.objects.all()) or "none yet"
    why = f"Several outfits are called “{words}”: type a number." if found else f"No outfit “{words}”."
    raise CommandError(f"{why} Outfits: {known}")
