"""The demo, from nothing to a printed dossier: its own data folder, its workroom, one comparison, one PDF.

manage.py points the program at `.demo/` for this command, so that nobody's own workroom is touched.
"""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.utils import timezone

from catalogue.workroom.files import written_whole
from catalogue.workroom.models import Member, User
from catalogue.workroom.sign_in import make_sign_in_address
from fitting.comparing.actions import compare_garment
from fitting.comparing.calculation.assessment import assess
from fitting.comparing.exchange.case_file import case_from_json
from fitting.comparing.exchange.plain_text import assessment_text
from fitting.comparing.models import Comparison
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.dossier.calculation import USUAL
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import PdfNotPossible, print_dossier
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.site import provision
from fitting.site.demo import find_demo_garment, load_demo_workroom
from fitting.site.server import HOST, PORT, free_port, serve

STORY = Path(settings.BASE_DIR) / "fixtures" / "demo"


class Command(BaseCommand):
    help = "Load the demo workroom, compare its jacket, write its dossier, and serve it."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="stop after the dossier")
        parser.add_argument(
            "--port", type=int, default=PORT, help="default: %(default)s, or one that is free"
        )

    def handle(self, *args: Any, no_serve: bool, port: int, **options: Any) -> None:
        call_command("migrate", verbosity=0, interactive=False)
        garment = self._garment()
        keeper = garment.its_workroom().members.get(role=Member.Role.KEEPER)
        self._tell(self._comparison(garment, by=keeper.user))
        self._print(garment.outfit, by=keeper.user)
        if not no_serve:
            self._serve(keeper, port=free_port(HOST, port))

    def _garment(self) -> Garment:
        now = timezone.now()
        found = find_demo_garment(STORY)
        if found is None:
            self.stdout.write(f"Loading the demo workroom into {settings.DATA_DIR}")
            found = load_demo_workroom(STORY, at=now)
        return Garment.objects.for_detail_page().get(pk=found.pk)

    def _comparison(self, garment: Garment, *, by: User) -> Comparison:
        """The newest, and a new one only where an input changed: the demo run again adds nothing."""
        standing = garment_as_it_stands(garment, by=by, at=timezone.now())
        if standing.newest and not standing.is_out_of_date:
            return standing.newest
        return compare_garment(garment, by=by, at=timezone.now())

    def _tell(self, comparison: Comparison) -> None:
        garment = comparison.garment
        self.stdout.write(f"\n{garment.outfit}: {garment}, from the plate “{garment.plate}”\n")
        self.stdout.write(assessment_text(assess(case_from_json(comparison.inputs["case"]).case), {}))

    def _print(self, outfit: Outfit, *, by: User) -> None:
        path = Path(settings.DATA_DIR) / "dossier.pdf"
        for sentence in provision.provide(provision.PANGO):
            self.stderr.write(sentence)
        values = dossier_values(
            Outfit.objects.for_detail_page().get(pk=outfit.pk),
            sections=USUAL,
            paper=Dossier.PaperSize.A4,
            system="in",
            by=by,
            at=timezone.now(),
        )
        try:
            printed = print_dossier(values)
        except PdfNotPossible as absent:
            self.stderr.write(f"No dossier was written. {absent.sentence}")
            return
        with written_whole(path) as file:
            file.write(printed.pdf)
        self.stdout.write(f"\nThe dossier of “{outfit}”, {printed.pages} pages: {path}")

    def _serve(self, keeper: Member, *, port: int) -> None:
        def ready(address: str) -> None:
            path = make_sign_in_address(member=keeper, by=None, at=timezone.now())
            self.stdout.write(f"\nSign in as the demo's keeper, once: {address}{path}")
            self.stdout.write("Only this machine can reach it. Ctrl+C ends.")
            self.stdout.flush()

        serve(host=HOST, port=port, ready=ready)
