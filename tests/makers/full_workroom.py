"""A small workroom with something in every column that an archive holds."""

import datetime
import io

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from catalogue.finding.models import SavedFilter
from catalogue.photographs.actions import PictureNotes, SentPicture, add_photos
from catalogue.photographs.imaging import read_upload
from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Seam
from catalogue.plates.models.plate import Fastening
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.references.models.tag import Tag
from catalogue.sources.models import Citation, Source
from catalogue.workroom.index.filing import file_references, file_sources
from catalogue.workroom.models import Workroom
from tests.makers.rows import make_piece, make_plate, make_reference, make_source, um
from tests.makers.traced_plate import trace_front

DAY = datetime.date(2026, 11, 20)


def fill_workroom(workroom: Workroom) -> Workroom:
    """“back-laced bodice” with all its parts, and “second bodice” with none."""
    source = make_source(
        workroom, title="Cut and Cloth", authors="Ash, A.", date="1999", container="Seams 3",
        editors="Birch, B.", volume="3", issue="2", pages="4–9", edition="2", accessed_on=DAY, url="https://seams.example/3",
    )  # fmt: skip
    reference = make_reference(
        workroom, date_edtf="1785~", date_earliest=datetime.date(1785, 1, 1),
        date_latest=datetime.date(1785, 12, 31),
        materials="linen", technique="quilted", fastening="laced", holder="Thornby", accession="1.2",
    )  # fmt: skip
    reference.tags.add(*(Tag.objects.create(workroom=workroom, name=name) for name in ("loan", "Zug")))
    Citation.objects.create(reference=reference, source=source, pages="7", fact="It is lined.")
    PublishedMeasure.objects.create(
        reference=reference,
        line="waist",
        value_um=um("26 in"),
        value_text="26 in",
        source=source,
        pages="p. 8",
    )
    photo = add_picture(reference, source)
    _fill_plate(reference, source, photo)
    Question.objects.create(
        reference=reference, text="Are the hems later?", asked_by="A curator", asked_on=DAY,
        answer="They are.", answered_by="Odile", answered_on=DAY, source=source, pages="8",
    )  # fmt: skip
    second = make_reference(workroom, name="second bodice")
    Question.objects.create(reference=second, text="Boned?", asked_on=DAY)
    Relation.objects.create(
        reference=second, other=reference, kind=Relation.Kind.VARIANT_OF, note="same maker"
    )
    SavedFilter.objects.create(workroom=workroom, name="linen things", query="text=linen")
    file_sources([source.pk])
    file_references([reference.pk, second.pk])
    return workroom


def add_picture(reference: ReferenceGarment, source: Source | None = None) -> Photo:
    file = io.BytesIO()
    Image.new("RGB", (40, 60), "teal").save(file, "PNG")
    sent = SimpleUploadedFile("front.png", file.getvalue())
    picture = SentPicture(file=sent, prepared=read_upload(sent))
    notes = PictureNotes(view="back", caption="From the back", credit="Us", rights="Free", source=source)
    return add_photos(reference=reference, pictures=[picture], notes=notes)[0]


def _fill_plate(reference: ReferenceGarment, source: Source, photo: Photo) -> None:
    plate = make_plate(
        reference, source=source, picture=photo, title="Plate 3", page="21", notes="a fold",
        allowance="included", allowance_um=um("1/2 in"), allowance_text="1/2 in",
        kind="draft", drawn_for_line="bust", drawn_for_um=um("18 in"), drawn_for_text="18 in",
    )  # fmt: skip
    front = make_piece(plate, "front", {"waist": "3/4 in", "bust": "1 1/8 in"}, notes="curved")
    back = make_piece(plate, "back", {"waist": "5/8 in"}, cut=1, on_fold=True, edges=1)
    # Nobody typed this one: there are only micrometres.
    back.readings.create(line="bust", reading_um=25_401, take_up_um=100, is_plain=True)
    trace_front(plate, front)
    Fastening.objects.create(plate=plate, line="", gap_um=um("1 in"), gap_text="1 in")
    Seam.objects.create(
        plate=plate, piece_a=front, edge_a="side", piece_b=back, edge_b="side", length_a_um=um("1 in"),
        length_a_text="1 in", how="felled", evidence=Seam.Evidence.INFERRED,
    )  # fmt: skip
