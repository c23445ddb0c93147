"""One row of each kind in the members' workroom, with the files that some of them have."""

import io
from types import SimpleNamespace

from django.utils import timezone

from catalogue.workroom.actions.deletion import delete_for_a_while
from catalogue.workroom.archive.actions import ask_for_export, ask_for_import
from catalogue.workroom.archive.models import ArchiveExport, ArchiveImport, ImportOutcome
from catalogue.workroom.files import put
from catalogue.workroom.reader.codec import to_json
from catalogue.workroom.work.models import Work
from fitting.comparing.actions import compare_garment
from tests.makers.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_shared,
    make_trial,
)
from tests.makers.kept_work import make_lay, make_work_note
from tests.makers.rows import (
    People,
    make_bodice_plate,
    make_dossier,
    make_entry,
    make_garment,
    make_invitation,
    make_log_photo,
    make_material,
    make_measures,
    make_outfit,
    make_pattern,
    make_photo,
    make_reference,
    make_route_choice,
    make_scan,
    make_source,
    make_stand,
    make_task,
    make_traced,
    make_wearer,
)
from tests.makers.working_pattern import make_version

A_FILE = b"a file"
SOME_TILES = bytes(256)  # enough of an index for the few tiles that are asked for, all of them empty


def one_of_each(people: People, *, name: str, waist: str) -> SimpleNamespace:
    """Rows by their kind. `name` is part of every name, `waist` the wearer's."""
    rows = _of_catalogue(people, name)
    rows.wearer = make_wearer(people.workroom, name=name)
    rows.invitation, rows.invited_at = make_invitation(people.workroom, by=people.keeper, name=name)
    rows.measures = make_measures(rows.wearer, {"waist": waist, "bust": "35 in"})
    rows.outfit = make_outfit(people.workroom, wearer=rows.wearer, name=name)
    rows.garment = make_garment(rows.outfit, plate=rows.plate, measures=rows.measures, name=name)
    rows.comparison = compare_garment(rows.garment, by=people.maker, at=timezone.now())
    rows.choice = make_route_choice(rows.garment)
    rows.work_note = make_work_note(rows.garment, results=_worked(waist))
    rows.pattern_version = make_version(rows.garment, by=people.maker)
    rows.lay = make_lay(rows.garment)
    rows.dossier = make_dossier(rows.outfit, file_name="fitting.pdf")
    put(rows.dossier.file, A_FILE)
    _add_log(rows, name)
    _add_fitting(rows, waist)
    _add_archives(rows, people)
    return rows


def _of_catalogue(people: People, name: str) -> SimpleNamespace:
    workroom = people.workroom
    plate = make_bodice_plate(workroom)
    plate.reference.name = name
    plate.reference.save()
    photo = make_photo(plate.reference)
    put(photo.file(320), A_FILE)
    put(photo.part(0, 0), A_FILE)
    scan, calibration = make_scan(plate)
    put(scan.tiles, SOME_TILES)
    make_traced(plate.pieces.first())
    put(calibration.tiles, SOME_TILES)
    gone = make_reference(workroom, name=name)
    return SimpleNamespace(
        question=plate.reference.questions.create(text=name, asked_on=timezone.localdate()),
        relation=make_reference(workroom, name=name).relations.create(other=plate.reference),
        deleted=delete_for_a_while(row=gone, by=people.maker),
        member=workroom.members.get(user=people.reader),
        source=make_source(workroom, title=name),
        saved_filter=workroom.saved_filters.create(name=name, query="kind=bodice"),
        reference=plate.reference,
        plate=plate,
        piece=plate.pieces.first(),
        photo=photo,
        scan=scan,
        calibration=calibration,
        work=scan.work,
        stand=make_stand(workroom, name=name),
        pattern=make_pattern(workroom, name=name),
    )


def _add_log(rows: SimpleNamespace, name: str) -> None:
    rows.log_photo = make_log_photo(make_entry(rows.outfit))
    put(rows.log_photo.file(320), A_FILE)
    rows.entry = rows.log_photo.entry
    rows.task = make_task(rows.outfit, garment=rows.garment, name=name)
    rows.material = make_material(rows.outfit, name=name)
    rows.share, rows.secret = make_shared(rows.outfit, entries=[rows.entry], photos=[rows.log_photo])


def _add_fitting(rows: SimpleNamespace, waist: str) -> None:
    rows.fitting = make_fitting(rows.outfit)
    rows.observation = make_observation(rows.fitting)
    rows.observation_photo = make_observation_photo(rows.observation)
    rows.alteration = make_alteration(rows.garment, observation=rows.observation)
    rows.trial = make_trial(rows.garment, {"waist": (waist, waist)})


def _add_archives(rows: SimpleNamespace, people: People) -> None:
    asked = {"by": people.keeper, "at": timezone.now()}
    rows.archive_export = ask_for_export(people.workroom, personal=True, **asked)
    put(rows.archive_export.file, A_FILE)
    rows.archive_export.works.update(state=Work.State.DONE)
    ArchiveExport.objects.update(size=len(A_FILE))
    rows.archive_import = ask_for_import(people.workroom, io.BytesIO(A_FILE), overwrite=False, **asked)
    rows.archive_import.works.update(state=Work.State.DONE)
    ArchiveImport.objects.update(found=to_json(ImportOutcome(done=(("added", "1 source"),))))


def _worked(waist: str) -> dict[str, object]:
    sums = [{"label": "finished", "parts": [waist]}]
    return {"figures": {}, "lines": sums, "grids": [], "flags": [], "drawings": []}
