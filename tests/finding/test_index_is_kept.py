"""Whatever a page writes, the index afterwards is as if it had been written again from nothing."""

from collections.abc import Callable

import pytest

from catalogue.finding.models import FullSizeMeasure, IndexCard
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Citation
from catalogue.workroom.index.filing import file_all, file_references
from tests.makers.rows import make_bodice_plate, make_source

CARD = ("reference", "source", "name", "place", "materials", "technique", "fastening", "facts", "notes",
        "around", "text")  # fmt: skip
GARMENT = {"name": "Coat", "dress": "men's", "kind": "coat", "date_edtf": "1785", "place": "Hexley",
           "tags": "loan, Stripes", "technique": "pinked", "fastening": "hooks"}  # fmt: skip
SOURCE = {"kind": "book", "title": "Ledger of threads", "authors": "Vane, Ada"}


def index() -> tuple[list, list]:
    measures = FullSizeMeasure.objects.order_by("plate", "line")
    return (
        list(IndexCard.objects.order_by("reference", "source").values(*CARD)),
        list(measures.values("plate", "reference", "line", "least_um", "most_um")),
    )


@pytest.fixture
def plate(people) -> Plate:
    plate = make_bodice_plate(people.workroom)
    source = make_source(people.workroom, title="Ledger")
    Citation.objects.create(reference=plate.reference, source=source, fact="a fact")
    file_all()
    return plate


def rows(prefix: str, **fields: str) -> dict[str, str]:
    return {f"{prefix}-TOTAL_FORMS": "1", f"{prefix}-INITIAL_FORMS": "0"} | {
        f"{prefix}-0-{name}": value for name, value in fields.items()
    }


# What is sent where; each must leave something to be found that was not there, or take something away.
WRITES: dict[str, Callable[[Plate], tuple[str, dict]]] = {
    "add a garment": lambda plate: ("/references/add/", GARMENT),
    "change a garment": lambda plate: (f"/references/{plate.reference_id}/change/", GARMENT),
    "cite a source": lambda plate: (
        f"/references/{plate.reference_id}/citations/",
        rows("citations", source=str(plate.reference.citations.get().source_id), fact="another"),
    ),
    "delete a garment": lambda plate: (f"/references/{plate.reference_id}/delete/", {}),
    "delete a plate": lambda plate: (f"/plates/{plate.pk}/delete/", {}),
    "start pieces": lambda plate: (f"/plates/{plate.pk}/pieces/start/", {"kind": "stays"}),
    "add a piece": lambda plate: (
        f"/plates/{plate.pk}/pieces/add/",
        {"name": "gusset", "cut": "2", "order": "9", "cloth": "outer", "grain": "along"},
    ),
    "change a piece": lambda plate: (
        f"/pieces/{plate.pieces.first().pk}/change/",
        {"name": "forepart", "cut": "4", "order": "9", "cloth": "outer", "grain": "along"},
    ),
    "delete a piece": lambda plate: (f"/pieces/{plate.pieces.first().pk}/delete/", {}),
    "add a source": lambda plate: ("/sources/add/", SOURCE),
    "change a source": lambda plate: (
        f"/sources/{plate.reference.citations.get().source_id}/change/",
        SOURCE,
    ),
}


@pytest.mark.parametrize("what", WRITES)
def test_what_a_page_writes_is_in_the_index(client, people, plate, what):
    client.force_login(people.maker)
    before = index()
    address, sent = WRITES[what](plate)
    assert client.post(address, sent).status_code == 302, "refused: nothing was tried"
    kept = index()
    assert kept != before
    file_all()
    assert index() == kept


def test_readings_that_are_kept_are_in_the_index(client, people, plate):
    client.force_login(people.maker)
    form = client.get(plate.get_absolute_url()).context["form"]
    sent = {name: form[name].value() for name in form.fields if form[name].value() not in (None, False)}
    waist = next(name for name, value in sent.items() if value == "3/4 in")
    answer = client.post(f"/plates/{plate.pk}/readings/", {**sent, waist: "1 in", "line": ["waist", "bust"]})
    assert answer.status_code == 302
    # 8 × 2 × (1 + 5/8) in.
    assert FullSizeMeasure.objects.get(line="waist").least_um == 26 * 25400


def test_deleting_a_garment_takes_its_card_away_and_its_page_does_not_count_it(client, people, plate):
    client.force_login(people.maker)
    page = client.get(f"/references/{plate.reference_id}/delete/").content.decode()
    assert "card" not in page
    assert "full size" not in page
    plate.reference.delete()
    assert not IndexCard.objects.filter(source=None).exists()


def test_a_plate_without_a_scale_yet_keeps_nothing_from_being_filed(people, plate):
    Plate.objects.filter(pk=plate.pk).update(ratio="")
    file_references({plate.reference_id})
    assert not FullSizeMeasure.objects.exists()
    assert IndexCard.objects.filter(reference=plate.reference).exists()


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("loan, Stripes ,, loan", ["loan", "Stripes"]), ("LOAN", ["loan"]), ("", [])],
)
def test_tags_are_parted_by_commas_and_one_is_one_however_it_is_written(client, people, plate, typed, kept):
    client.force_login(people.maker)
    address = f"/references/{plate.reference_id}/change/"
    client.post(address, {**GARMENT, "tags": "loan, old"})
    client.post(address, {**GARMENT, "tags": typed})
    assert sorted(tag.name for tag in ReferenceGarment.objects.get().tags.all()) == sorted(kept)
    # A tag that nothing bears is forgotten.
    assert sorted(people.workroom.tags.values_list("name", flat=True)) == sorted(kept)
    assert ", ".join(sorted(kept)) in client.get(address).content.decode()


def test_a_tag_too_long_is_told(client, people, plate):
    client.force_login(people.maker)
    answer = client.post(f"/references/{plate.reference_id}/change/", {**GARMENT, "tags": "x" * 61})
    assert "at most 60 characters" in answer.content.decode()
