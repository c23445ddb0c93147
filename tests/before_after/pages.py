"""Every address that a walk along links finds, as each of the six people is answered there."""

import hashlib
import io
import zipfile
from collections import Counter
from collections.abc import Iterable
from functools import lru_cache
from urllib.parse import urlencode, urlsplit

from django.apps import apps
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from tests.before_after.boxes import boxes_of
from tests.before_after.stage import plain
from tests.browser.addresses import links_of, name_of

# No link leads there, or only a script's: what the address counts, and the numbers that follow.
UNLINKED = {
    "fitting-hold-worker": ("",),
    "scan-add": ("catalogue.Plate",),
    "scan-tile": ("catalogue.PlateScan", 0, 0, 0),
    "calibration-tile": ("catalogue.Calibration", 0, 0, 0),
}
SIZES = ("full size", "miniature")  # of pattern sheets
QUERIES_A_NAME = 3  # addresses with a query that are looked at, of each name; none is walked on from
FEW_A_NAME = 4  # addresses of each name that others than the keeper are sent to
HEADERS = ("Content-Type", "Content-Disposition", "Cache-Control", "Refresh", "Referrer-Policy")


def take(people: dict[str, Client], secrets: list[str]) -> dict[str, str]:
    """The keeper is sent to every address, the others to a few of each name."""
    keeper = people["keeper"]
    found = walk(keeper, ["/", reverse("sign-in"), *secrets, *_unlinked()])
    found |= {address: answered(keeper.get(address)) for address in _sheets(keeper)}
    told = {f"keeper {address}": text for address, text in found.items()}
    for who in people.keys() - {"keeper"}:
        told |= {f"{who} {address}": answered(people[who].get(address)) for address in _few(found)}
    return {plain(asked): told[asked] for asked in sorted(told)}


def walk(browser: Client, start: list[str]) -> dict[str, str]:
    """What is answered at each address of this program that is come upon by links, each asked once."""
    waiting, seen, queries, found = list(start), set(start), Counter[str](), {}
    for address in waiting:
        answer = browser.get(address)
        found[address] = answered(answer)
        if "?" in address or not answer["Content-Type"].startswith("text/html"):
            continue
        for link in links_of(answer.content.decode(), address):
            new, name = link.geturl(), name_of(link.path)
            if new in seen:
                continue
            queries[name] += bool(link.query)
            if not link.query or queries[name] <= QUERIES_A_NAME:
                seen.add(new)
                waiting.append(new)
    return found


def _few(addresses: Iterable[str]) -> list[str]:
    so_far, few = Counter[str](), []
    for address in addresses:
        name = name_of(urlsplit(address).path)
        so_far[name] += 1
        if so_far[name] <= FEW_A_NAME:
            few.append(address)
    return few


def _unlinked() -> list[str]:
    found = []
    for name, (label, *numbers) in UNLINKED.items():
        rows = [apps.get_model(label).objects.order_by("pk").first().pk] if label else []
        found.append(reverse(name, args=[*rows, *numbers]))
    return found


def _sheets(keeper: Client) -> list[str]:
    """The PDFs of pattern sheets of each garment that has any, with the boxes as they are offered."""
    found = []
    for garment in apps.get_model("fitting.Garment").objects.order_by("pk"):
        at = reverse("garment-sheets", args=[garment.pk])
        boxes = boxes_of(keeper.get(at).content.decode(), action=at)
        file = reverse("garment-sheets-file", args=[garment.pk])
        found += [f"{file}?{urlencode(boxes | {'size': size}, doseq=True)}" for size in SIZES if boxes]
    return found


def answered(answer: HttpResponse) -> str:
    """Status, where it leads, what the headers say, and the body as text."""
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    headers = [f"{name}: {answer[name]}" for name in HEADERS if name in answer]
    head = f"{answer.status_code} {answer.get('Location', '')}".strip()
    return plain("\n".join([head, *headers, "", as_text(body)]))


@lru_cache(maxsize=64)
def as_text(body: bytes) -> str:
    """A PDF page by page, an archive file by file, what is no text by its checksum."""
    if body.startswith(b"%PDF"):
        return "\n".join(_pdf_pages(body))
    if body.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(body)) as archive:
            names = sorted(archive.namelist())
            return "\n".join(f"--- {name}\n{as_text(archive.read(name))}" for name in names)
    try:
        return body.decode()
    except UnicodeDecodeError:
        return f"{len(body)} bytes, {hashlib.sha256(body).hexdigest()}"


def _pdf_pages(pdf: bytes) -> list[str]:
    """Of each page its size, its words, and a checksum of what is drawn (sheets draw letters as outlines)."""
    return [
        f"--- page {number}, {page.mediabox.width} × {page.mediabox.height}, "
        f"{hashlib.sha256(page.get_contents().get_data()).hexdigest()}\n{page.extract_text()}"
        for number, page in enumerate(PdfReader(io.BytesIO(pdf)).pages, start=1)
    ]
