"""How long a dossier takes, against WeasyPrint alone on the same HTML: aimed at 1.3 times or less.

Run by hand, from the top folder: python -m tests.benchmarks.dossier
It loads the demo workroom into a database in memory and a folder of its own.
"""

import os
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import django

ROUNDS = 5
DEMO = Path(__file__).resolve().parents[2] / "fixtures" / "demo"


def median_s(work: Callable[[], object]) -> float:
    """Seconds of the processor, whatever else the machine does: the median of rounds after one to warm up."""
    taken = []
    for _ in range(ROUNDS + 1):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return statistics.median(taken[1:])


def compare(sections: tuple[str, ...], name: str) -> None:
    import weasyprint
    from django.utils import timezone

    from fitting.dossier.document import html_of, print_dossier
    from fitting.dossier.fetcher import OwnFilesOnly
    from fitting.dossier.values import dossier_values
    from fitting.models import Outfit

    def values():
        given = {"paper": "A4", "system": "in", "by": None, "at": timezone.now()}
        return dossier_values(Outfit.objects.for_detail_page().first(), sections=sections, **given)

    made = values()
    html, photos = html_of(made), made.photos
    pages = print_dossier(made).pages

    def alone() -> bytes:
        page = weasyprint.HTML(string=html, url_fetcher=OwnFilesOnly(photos))
        return page.write_pdf(pdf_variant="pdf/ua-1")

    ours_s, alone_s = median_s(lambda: print_dossier(values())), median_s(alone)
    ours, theirs = f"{ours_s:.2f} s", f"{alone_s:.2f} s"
    print(f"{name}, {pages} pages: {ours}; WeasyPrint alone {theirs}; {ours_s / alone_s:.2f} times")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"PLATE_DATA": folder, "DJANGO_SETTINGS_MODULE": "fitting.site.settings"}
        os.environ["DATABASE_URL"] = "sqlite://:memory:"
        django.setup()
        from django.core.management import call_command
        from django.utils import timezone

        from fitting.actions.demo import load_demo_workroom
        from fitting.dossier.sections import SECTIONS, USUAL

        call_command("migrate", verbosity=0)
        load_demo_workroom(DEMO, at=timezone.now())
        compare(USUAL, "as carried to a fitting")
        compare(tuple(SECTIONS), "every section")
