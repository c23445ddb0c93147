"""How long the catalogue's pages take with 2,000 and 20,000 garments, ten photographs and a plate to each.

Aimed at: at most 10 queries (14 for a garment's page) at any size, and 100 ms for 95 of 100 requests.
Run by hand, from the top folder: python -m tests.benchmarks.catalogue [garments …]
It seeds a database of its own in a folder that is thrown away, or in the one that DATABASE_URL names.
Time is a request's from beginning to end (wall) and, in brackets, the processor's own for it, which other
work on the machine does not lengthen (on PostgreSQL that leaves out what its server does). The floor is one
page of garments as bare rows: it is said how many times as long each page takes.
"""

import datetime
import gc
import os
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator

import django

SIZES = (2_000, 20_000)
PHOTOS_EACH = 10
ROUNDS = 60
AT_A_TIME = 2_000
KINDS = ("stays", "gown", "jacket", "petticoat", "coat", "waistcoat", "breeches", "shift", "cloak", "bodice")
PLACES = ("Hexley", "Thornby Regis", "Vaucreuse", "Lower Oxbrook", "Pell")
CLOTHS = ("linen", "silk", "worsted", "cotton", "brodé", "taffeta", "broadcloth", "fustian")
SYLLABLES = ("ba", "ro", "quil", "ten", "sha", "mer", "lo", "vin", "pas", "gri", "du", "sel", "ka", "tor")


def word(chance: random.Random) -> str:
    """One of some 2,700 words, some of them much commoner than others."""
    return "".join(SYLLABLES[int(len(SYLLABLES) * chance.random() ** 2)] for _ in range(3))


def seed(count: int):
    """A workroom with its keeper, and `count` garments filed as a person's own would be."""
    from django.db import transaction

    from catalogue.workroom.index.filing import file_all
    from catalogue.workroom.models import Member, User, Workroom

    chance = random.Random(count)  # noqa: S311 (rows to measure with)
    with transaction.atomic():
        workroom = Workroom.objects.create(name=f"Store of {count}")
        keeper = User.objects.create_user(username=f"keeper{count}")
        Member.objects.create(workroom=workroom, user=keeper, role=Member.Role.KEEPER)
        tags = [workroom.tags.create(name=name) for name in ("loan", "stripes", "to be drawn", "silk")]
        for start in range(0, count, AT_A_TIME):
            seed_some(workroom, min(AT_A_TIME, count - start), tags, chance)
        file_all()
    return workroom, keeper


def seed_some(workroom, count: int, tags, chance: random.Random) -> None:
    from catalogue.photographs.models import Photo
    from catalogue.references.models.garment import ReferenceGarment

    garments = ReferenceGarment.objects.bulk_create(garment(workroom, chance) for _ in range(count))
    Photo.objects.bulk_create(
        (
            Photo(reference=one, stem=f"{one.pk}-{order}", width=600, height=800, order=order)
            for one in garments
            for order in range(PHOTOS_EACH)
        ),
        batch_size=5_000,
    )
    through = ReferenceGarment.tags.through
    through.objects.bulk_create(
        through(referencegarment_id=one.pk, tag_id=chance.choice(tags).pk) for one in garments
    )
    seed_plates(garments, chance)


def settle() -> None:
    """What PostgreSQL’s own housekeeping does within the minute after so many rows were written."""
    from django.db import connection

    if connection.vendor == "postgresql":
        connection.cursor().execute("VACUUM ANALYZE")


def garment(workroom, chance: random.Random):
    from catalogue.references.models.garment import ReferenceGarment

    year = chance.randint(1680, 1910)
    kind = chance.choice(KINDS)
    return ReferenceGarment(
        workroom=workroom,
        name=f"{word(chance).capitalize()} {kind}",
        dress=chance.choice(("women's", "men's", "children's")),
        kind=kind,
        date_edtf=f"{year}/{year + 5}",
        date_earliest=datetime.date(year, 1, 1),
        date_latest=datetime.date(year + 5, 12, 31),
        place=chance.choice(PLACES),
        materials=f"{chance.choice(CLOTHS)} and {chance.choice(CLOTHS)}",
        technique=f"{word(chance)} {word(chance)}",
        fastening=f"{word(chance)} in front",
        construction_notes=" ".join(word(chance) for _ in range(80)),
    )


def seed_plates(garments, chance: random.Random) -> None:
    from catalogue.plates.models.piece import Piece, Reading
    from catalogue.plates.models.plate import Plate

    plates = Plate.objects.bulk_create(Plate(reference=one, allowance="none") for one in garments)
    pieces = Piece.objects.bulk_create(
        [
            Piece(plate=plate, order=place, name=name)
            for plate in plates
            for place, name in enumerate(("front", "back"))
        ],
        batch_size=5_000,
    )
    Reading.objects.bulk_create(
        (
            Reading(piece=piece, line=line, reading_um=um, reading_text=f"{um / 1000} mm")
            for piece in pieces
            for line in ("bust", "waist")
            for um in [chance.randint(18_000, 28_000)]
        ),
        batch_size=5_000,
    )


def addresses(workroom, chance: random.Random) -> dict[str, Iterator[str]]:
    """For each page an endless row of addresses, no two alike if it can be helped."""
    keys = list(workroom.references.values_list("pk", flat=True))
    pages = len(keys) // 50

    def ever(make):
        while True:
            yield make()

    return {
        "list": ever(lambda: f"/references/?page={chance.randint(1, pages)}"),
        "time line": ever(lambda: f"/references/?as=time&page={chance.randint(1, pages)}"),
        "search, a rare word": ever(lambda: f"/references/?text={word(chance)}+{word(chance)}"),
        "search, a common word": ever(lambda: f"/references/?text={chance.choice(CLOTHS)}"),
        "filter": ever(
            lambda: (
                f"/references/?kind={chance.choice(KINDS)}&year_from={chance.randint(1700, 1800)}&photos=yes"
            )
        ),
        "filter by a girth": ever(
            lambda: f"/references/?line=waist&girth_from={chance.randint(26, 29)}&girth_to=30&tag=loan"
        ),
        "filter by material": ever(lambda: f"/references/?materials={chance.choice(CLOTHS)}&as=table"),
        "garment": ever(lambda: f"/references/{chance.choice(keys)}/"),
    }


def measure(client, at: Iterator[str]) -> tuple[list[float], list[float], int]:
    """Wall and processor milliseconds of each round, and the most queries of any."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    wall, own = [], []
    with CaptureQueriesContext(connection) as asked:
        client.get(next(at))
    most = len(asked)
    for _ in range(ROUNDS):
        address, start, start_own = next(at), time.perf_counter(), time.process_time()
        answer = client.get(address)
        wall.append((time.perf_counter() - start) * 1000)
        own.append((time.process_time() - start_own) * 1000)
        assert answer.status_code == 200, address
    return wall, own, most


def bare_rows_ms(workroom) -> float:
    """The processor's own for the rows of one page of the list, and nothing done with them."""
    taken = []
    for _ in range(ROUNDS):
        start = time.process_time()
        list(workroom.references.order_by("name").values()[:50])
        taken.append((time.process_time() - start) * 1000)
    return statistics.median(taken)


def p95(taken: list[float]) -> float:
    return statistics.quantiles(taken, n=20)[-1]


def run(sizes: list[int]) -> None:
    from django.core.management import call_command
    from django.test import Client

    call_command("migrate", verbosity=0, interactive=False)
    before: dict[str, float] = {}
    for count in sizes:
        start = time.perf_counter()
        workroom, keeper = seed(count)
        settle()
        client = Client()
        client.force_login(keeper)
        client.get("/references/")
        # As the server does once it has started.
        gc.collect()
        gc.freeze()
        print(
            f"\n{count} garments, {count * PHOTOS_EACH} photographs"
            f" (seeded in {time.perf_counter() - start:.0f} s)"
        )
        floor = bare_rows_ms(workroom)
        print(f"A page of bare rows: {floor:.1f} ms")
        print(
            f"{'':24}{'queries':>8}{'p50 ms':>17}{'p95 ms':>17}{'times bare rows':>18}{'the last size':>16}"
        )
        for name, at in addresses(workroom, random.Random(1)).items():  # noqa: S311
            wall, own, most = measure(client, at)
            p50 = statistics.median(own)
            ratio = f"{p50 / before[name]:.1f}" if name in before else ""
            before[name] = p50
            middle, high = (f"{of(wall):.0f} ({of(own):.0f})" for of in (statistics.median, p95))
            print(f"{name:24}{most:8}{middle:>17}{high:>17}{p50 / floor:>18.1f}{ratio:>16}")


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "fitting.site.settings"
    with tempfile.TemporaryDirectory() as folder:
        os.environ["PLATE_DATA"] = folder
        os.environ["PLATE_HOSTS"] = "testserver"
        django.setup()
        run([int(size) for size in sys.argv[1:]] or list(SIZES))
