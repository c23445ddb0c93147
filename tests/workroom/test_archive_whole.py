"""A whole workroom, its outfits and people with it, as one file: out, in, and out again it says the same."""

import io
import json
import re
import zipfile

import pytest

from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.packing import write_archive
from catalogue.workroom.archive.taking import IntakeReport, take_archive
from catalogue.workroom.kinds import LISTS
from catalogue.workroom.models import Member, User, Workroom
from fitting.comparing.models import Comparison
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry
from fitting.wearers.models import Wearer
from tests.makers.packing import broken, document, with_document
from tests.makers.rows import NOON

pytestmark = pytest.mark.django_db


@pytest.fixture
def told(demo, settings) -> Workroom:
    settings.DATA_DIR = demo.folder
    return demo.shown.its_workroom()


@pytest.fixture
def empty(told) -> Workroom:
    """Another workroom of the same people."""
    room = Workroom.objects.create(name="New house")
    for member in told.members.all():
        Member.objects.create(workroom=room, user=member.user, role=member.role)
    return room


def out(workroom: Workroom, *, personal: bool = True) -> io.BytesIO:
    write_archive(workroom, file := io.BytesIO(), at=NOON, personal=personal)
    return file


def taken_in(workroom: Workroom, file: io.BytesIO, *, overwrite: bool = False) -> IntakeReport:
    return take_archive(OpenedArchive(file), workroom=workroom, overwrite=overwrite, only_try=False)


def files(file: io.BytesIO) -> dict[str, bytes]:
    with zipfile.ZipFile(file) as archive:
        return {name: archive.read(name) for name in archive.namelist() if "/" in name}


@pytest.fixture
def elsewhere(settings, tmp_path) -> None:
    """What is taken in lies in a folder of the test, beside a copy of what the demo has."""


def test_out_into_an_empty_workroom_and_out_again_the_rows_and_the_files_are_the_same(told, empty):
    first = out(told)
    taken = taken_in(empty, first)
    assert all(taken.added[kind.word] for kind in LISTS.values())
    again = out(empty)
    assert document(again) == document(first)
    assert files(again) == files(first)
    assert {name.partition("/")[0] for name in files(first)} >= {"photographs", "scans", "log"}
    # A second time nothing is there twice.
    assert not {*taken_in(empty, first).added} & {kind.word for kind in LISTS.values()}


def test_no_number_of_the_database_and_no_account_is_in_it(told):
    text = json.dumps(document(out(told)))
    assert not re.search(r'"(id|pk|\w+_id)":', text)
    for user in User.objects.all():
        assert user.password not in text
        assert not user.email or user.email not in text


def test_who_did_it_is_known_by_name_and_is_nobody_where_no_member_bears_it(told, empty):
    named = {entry["by"] for outfit in document(out(told))["outfits"] for entry in outfit["log"]}
    assert named == {str(entry.by) for entry in LogEntry.objects.of_workroom(told)}
    empty.members.all().delete()
    taken_in(empty, out(told))
    assert {entry.by for entry in LogEntry.objects.of_workroom(empty)} == {None}


def test_without_personal_data_no_measure_and_no_wearer_is_in_it(told, empty):
    file = out(told, personal=False)
    said = document(file)
    assert said["wearers"] == said["alterations"] == []
    for outfit in said["outfits"]:
        assert outfit["wearer"] is None
        assert outfit["fittings"] == outfit["dossiers"] == []
        for garment in outfit["garments"]:
            assert garment["measures"] is None
            assert garment["comparisons"] == garment["lays"] == garment["work_notes"] == []
    shown = [photo for outfit in said["outfits"] for entry in outfit["log"] for photo in entry["photos"]]
    assert not any(photo["shows_wearer"] for photo in shown)
    names = {wearer.name for wearer in Wearer.objects.of_workroom(told)}
    assert not any(f'"{name}"' in json.dumps(said) for name in names)
    taken_in(empty, file)
    assert document(out(empty, personal=False)) == said
    assert not Comparison.objects.of_workroom(empty).exists()


def test_a_comparison_comes_with_its_garment_and_what_it_was_made_from(told, empty):
    taken_in(empty, out(told))
    for there in Garment.objects.of_workroom(told):
        here = Garment.objects.of_workroom(empty).get(key=there.key)
        assert [one.results for one in here.comparisons.all()] == [
            one.results for one in there.comparisons.all()
        ]
        assert [one.what_for for one in here.references.all()] == [
            one.what_for for one in there.references.all()
        ]
        assert (here.plate and here.plate.key) == (there.plate and there.plate.key)
        assert (here.again_of and here.again_of.key) == (there.again_of and there.again_of.key)


HOSTILE = "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"


@pytest.mark.parametrize(
    ("place", "value", "fault"),
    [
        (["comparisons", 0, "inputs"], {}, "This is not what this program keeps there."),
        (["comparisons", 0, "results", "routes"], 7, "This is not what this program keeps there."),
        (["lays", 0, "results", 0, "drawings", "in"], HOSTILE, "A drawing has no “script”."),
        (["lays", 0, "results", 0, "drawings", "cm"], "<svg><![CDATA[<b>]]></svg>", "This is no drawing"),
        (["work_notes", 0, "results", "drawings"], [{}], "This is not what this program keeps there."),
        (["measures"], "0" * 32, "measures: No such row among the measures before it."),
        (["again_of"], "0" * 32, "again_of: No such row among the garments."),
        (["gather_ratio"], 0, "gather_ratio: Ensure this value is greater than or equal to 1."),
    ],
)
def test_what_our_pages_would_not_keep_is_refused(told, empty, place, value, fault):
    from catalogue.lengths.calculation.errors import Faults

    said = document(file := out(told))
    garments = [garment for outfit in said["outfits"] for garment in outfit["garments"]]
    whole = next(one for one in garments if (one["lays"] and one["work_notes"]) or place[0] != "lays")
    if len(place) > 1:
        whole = next(one for one in garments if one[place[0]])
    broken(place, value)(whole)
    with pytest.raises(Faults, match=re.escape(fault)):
        taken_in(empty, with_document(file, said))
    assert not empty.outfits.exists()
