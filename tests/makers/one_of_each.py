"""One row of each kind in the members' workroom, with the files that some of them have."""

from types import SimpleNamespace

from django.utils import timezone

from catalogue.workroom.actions.deleted import delete_for_a_while
from fitting.comparing.actions import compare_garment
from fitting.dossier.models import Dossier
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
    rows.lay = make_lay(rows.garment)
    rows.dossier = make_dossier(rows.outfit, state=Dossier.State.DONE, file_name="fitting.pdf")
    _put_file(rows.dossier.path)
    _add_log(rows, name)
    _add_fitting(rows, waist)
    return rows


def _of_catalogue(people: People, name: str) -> SimpleNamespace:
    workroom = people.workroom
    plate = make_bodice_plate(workroom)
    plate.reference.name = name
    plate.reference.save()
    photo = make_photo(plate.reference)
    _put_file(photo.file(320))
    _put_file(photo.file(320).with_name(f"{photo.stem}-part-0-0.jpg"))
    scan, calibration = make_scan(plate)
    _put_file(scan.tile_folder / "0-0-0.jpg")
    make_traced(plate.pieces.first())
    _put_file(calibration.tile_folder / "0-0-0.jpg")
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
        stand=make_stand(workroom, name=name),
        pattern=make_pattern(workroom, name=name),
    )


def _add_log(rows: SimpleNamespace, name: str) -> None:
    rows.log_photo = make_log_photo(make_entry(rows.outfit))
    _put_file(rows.log_photo.file(320))
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


def _worked(waist: str) -> dict[str, object]:
    sums = [{"label": "finished", "parts": [waist]}]
    return {"figures": {}, "lines": sums, "grids": [], "flags": [], "drawings": []}


def _put_file(path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"a file")
