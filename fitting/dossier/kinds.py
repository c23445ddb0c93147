"""What a workroom holds of dossiers."""

from collections.abc import Callable
from typing import IO, Any
from uuid import uuid4

from catalogue.lengths.showing import Writing
from catalogue.photographs.imaging import ImageRefused
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.reader.kept import as_kept
from fitting.dossier.calculation import SECTIONS
from fitting.dossier.loading.changes import changes_between
from fitting.dossier.models import Dossier
from fitting.dossier.showing.file import write_whole

MOST_BYTES = 100 * 1024 * 1024


def _keep(dossier: Dossier, opens: Callable[[], IO[bytes]]) -> None:
    dossier.file_name = f"{uuid4().hex}.pdf"
    with opens() as opened:
        content = opened.read()
    if not content.startswith(b"%PDF-"):
        raise ImageRefused("This file is no PDF.")
    write_whole(dossier.path, content)


def _read_sections(given: Any) -> None:
    for key in given:
        SECTIONS[key]


def _read_snapshot(given: Any) -> None:
    if given:
        list(changes_between(given, given, Writing(system="in")))


def _is_done(dossier: Dossier) -> None:
    dossier.state, dossier.progress = Dossier.State.DONE, 100


register(
    Kind(
        model=Dossier,
        part_of="outfit",
        left_out=("state", "progress", "step", "heartbeat", "fault", "file_name"),
        checks={"sections": as_kept(_read_sections), "snapshot": as_kept(_read_snapshot)},
        files="dossiers/",
        most=MOST_BYTES,
        keep=_keep,
        written=_is_done,
    )
)
