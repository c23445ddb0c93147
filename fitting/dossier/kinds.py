"""What a workroom holds of dossiers."""

from typing import IO, Any
from uuid import uuid4

from catalogue.photographs.imaging import ImageRefused
from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.files import put
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.reader.kept_json import as_kept
from catalogue.workroom.work.engine import is_done_already
from fitting.dossier.models import Dossier
from fitting.outfits.showing import OUTFITS

MOST_BYTES = 100 * 1024 * 1024


def _keep(dossier: Dossier, opened: IO[bytes]) -> None:
    dossier.file_name = f"{uuid4().hex}.pdf"
    content = opened.read()
    if not content.startswith(b"%PDF-"):
        raise ImageRefused("This file is no PDF.")
    put(dossier.file, content)


def _read_sections(given: Any) -> None:
    # One that an earlier program knew may be among them: pages leave it out.
    for key in given:
        key.casefold()


def _read_snapshot(given: Any) -> None:
    from catalogue.lengths.showing import Writing
    from fitting.dossier.loading.changes import changes_between

    if given:
        list(changes_between(given, given, Writing(system="in")))


register(
    Kind(
        model=Dossier,
        part_of="outfit",
        # It is printed of all that was seen and measured for its outfit.
        of_person=OfPerson(by="wearer", beside="outfit"),
        left_out=("file_name",),
        checks={"sections": as_kept(_read_sections), "snapshot": as_kept(_read_snapshot)},
        files="dossiers/",
        most=MOST_BYTES,
        keep=_keep,
        written=is_done_already,
    )
)
register_deletions(
    Deletion(
        model=Dossier,
        name="the {row}",
        way=lambda dossier: [OUTFITS, dossier.outfit],
        has_page=True,
        says="What it was printed from stays.",
    ),
)
