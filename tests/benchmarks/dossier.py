"""How long a dossier takes and how much memory, each in a process of its own, against WeasyPrint alone.

Run by hand, from the top folder: python -m tests.benchmarks.dossier
It loads the demo workroom into a folder of its own, then makes of its outfit one of twelve garments with
sixty photographs. Aimed at for those forty pages: 6 s, 350 MB, 1.3 times WeasyPrint alone on the same HTML.
Seconds are those of the processor, whatever else the machine does: the least of several rounds.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import django
from pypdf import PdfReader

ROUNDS = 3
TOP = Path(__file__).resolve().parents[2]
PHOTOGRAPHS, GARMENTS, WIDE, HIGH = 60, 12, 1500, 2000
# WeasyPrint with nothing of ours: the page and its files lie in the folder.
ALONE = """
import json, pathlib, sys, weasyprint
from weasyprint.urls import URLFetcher, URLFetcherResponse
folder = pathlib.Path(sys.argv[1])
files = json.loads((folder / "files.json").read_text())
class FromFolder(URLFetcher):
    def fetch(self, url, headers=None):
        octets = pathlib.Path(files[url]).read_bytes()
        return URLFetcherResponse(url, octets, {"Content-Type": self.kind(url)})
    def kind(self, url):
        return {"css": "text/css", "off2": "font/woff2"}.get(files[url][-4:].lstrip("."), "image/jpeg")
page = weasyprint.HTML(string=(folder / "page.html").read_text(), url_fetcher=FromFolder())
page.write_pdf(folder / "alone.pdf", pdf_variant="pdf/ua-1")
"""


def measured(words: list[str]) -> tuple[float, float]:
    """Seconds of the processor and peak megabytes of a process, the least of several rounds.

    A process starts with its parent's peak: nothing is laid out in this one.
    """
    seconds, megabytes = [], []
    for _ in range(ROUNDS):
        process = subprocess.Popen(words, cwd=TOP, stdout=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        if status:
            raise SystemExit(f"{words} failed")
        seconds.append(used.ru_utime + used.ru_stime)
        megabytes.append(used.ru_maxrss / 1024)
    return min(seconds), min(megabytes)


def compare(folder: Path, name: str, *given: str) -> None:
    from fitting.dossier.calculation import SECTIONS, USUAL

    photographs = write_page(folder, tuple(SECTIONS) if "--full" in given else USUAL)
    command = [sys.executable, "manage.py", "dossier", "1", "--to", str(folder / "ours.pdf"), *given]
    ours_s, ours_mb = measured(command)
    alone_s, alone_mb = measured([sys.executable, "-c", ALONE, str(folder)])
    kilobytes = (folder / "ours.pdf").stat().st_size / 1024
    pages = len(PdfReader(folder / "ours.pdf").pages)
    print(
        f"{name}: {pages} pages, {photographs} photographs, {kilobytes:.0f} KB; "
        f"{ours_s:.2f} s and {ours_mb:.0f} MB, WeasyPrint alone {alone_s:.2f} s and {alone_mb:.0f} MB: "
        f"{ours_s / alone_s:.2f} times"
    )


def write_page(folder: Path, sections: tuple[str, ...]) -> int:
    """Leave the HTML of a dossier and the list of its files; return how many photographs it has."""
    from django.contrib.staticfiles import finders
    from django.core.files.storage import default_storage
    from django.utils import timezone

    from fitting.dossier.loading.values import dossier_values
    from fitting.dossier.showing.document import html_of
    from fitting.outfits.models.outfit import Outfit

    outfit = Outfit.objects.for_detail_page().get(pk=1)
    given = {"paper": "A4", "system": "in", "by": None, "at": timezone.now()}
    values = dossier_values(outfit, sections=sections, **given)
    html = html_of(values)
    ours = {f"static:{path}": path for finder in finders.get_finders() for path, _ in finder.list([])}
    files = {address: str(finders.find(path)) for address, path in ours.items()}
    files |= {address: default_storage.path(name) for address, name in values.photos.items()}
    (folder / "page.html").write_text(html)
    (folder / "files.json").write_text(json.dumps(files))
    return sum(f'src="{one}"' in html for one in values.photos)


def enlarge() -> None:
    """The demo's outfit with twelve garments, all compared, and so many photographs in its log."""
    from django.utils import timezone

    from fitting.comparing.actions import compare_garment
    from fitting.outfits.models.garment import Garment
    from fitting.outfits.models.log import LogEntry, LogPhoto
    from fitting.outfits.models.outfit import Outfit

    outfit = Outfit.objects.get(pk=1)
    compared = list(outfit.garments.exclude(plate=None))
    for order in range(outfit.garments.count() + 1, GARMENTS + 1):
        like = compared[order % len(compared)]
        eases = list(like.eases.all())
        garment = Garment.objects.create(
            outfit=outfit, name=f"garment {order}", order=order, plate=like.plate
        )
        for ease in eases:
            ease.pk, ease.garment = None, garment
            ease.save()
        compare_garment(garment, by=outfit.maker, at=timezone.now())
    shown = 15 + LogPhoto.objects.filter(entry__outfit=outfit).count()
    for number in range(PHOTOGRAPHS - shown):
        if number % 3 == 0:
            entry = LogEntry.objects.create(outfit=outfit, text=f"Three views of day {number}.", hours=2)
        photo = LogPhoto.objects.create(entry=entry, stem=f"view{number}", width=WIDE, height=HIGH)
        take_photograph(photo.file(960), number)


def take_photograph(file: Path, number: int) -> None:
    """A picture as dense as a photograph of cloth: coarse and fine noise over a slope of light."""
    from PIL import Image

    height, width = 960, 720
    coarse = Image.effect_noise((width // 24, height // 24), 90).resize(
        (width, height), Image.Resampling.BICUBIC
    )
    fine = Image.effect_noise((width, height), 24)
    light = Image.linear_gradient("L").resize((width, height)).rotate(90 * (number % 4), expand=False)
    Image.merge("RGB", (coarse, Image.blend(coarse, fine, 0.4), light)).save(file, "JPEG", quality=82)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"PLATE_DATA": folder, "DJANGO_SETTINGS_MODULE": "fitting.site.settings"}
        os.environ.pop("DATABASE_URL", None)
        django.setup()
        from django.core.management import call_command
        from django.utils import timezone

        from fitting.site.demo import load_demo_workroom

        call_command("migrate", verbosity=0)
        load_demo_workroom(TOP / "fixtures" / "demo", at=timezone.now())
        compare(Path(folder), "as carried to a fitting")
        compare(Path(folder), "the demo’s full file", "--full")
        enlarge()
        compare(Path(folder), "the full file of twelve garments", "--full")
