import pytest
from django.core.management import CommandError, call_command

from catalogue.workroom.models import Workroom
from tests.makers.full_workroom import fill_workroom


@pytest.fixture
def house(db) -> Workroom:
    return fill_workroom(Workroom.objects.create(name="Attic table"))


def test_out_and_into_another_workroom(house, tmp_path, capsys):
    Workroom.objects.create(name="New house")
    file = tmp_path / "out.zip"
    call_command("export", str(file), workroom="Attic table")
    assert "where and when they were taken" in capsys.readouterr().out
    call_command("import", str(file), workroom="New house")
    assert "In New house are added: 1 source, 2 reference garments" in capsys.readouterr().out
    assert Workroom.objects.get(name="New house").references.count() == 2


def test_trying_writes_nothing(house, tmp_path, capsys):
    Workroom.objects.create(name="New house")
    call_command("export", str(tmp_path / "out.zip"), workroom="Attic table")
    call_command("import", str(tmp_path / "out.zip"), "--try", workroom="New house")
    assert "Nothing is done yet." in capsys.readouterr().out
    assert not Workroom.objects.get(name="New house").references.exists()


def test_faults_go_to_standard_error_with_exit_two(house, tmp_path, capsys):
    (tmp_path / "bad.zip").write_bytes(b"x")
    with pytest.raises(SystemExit, match="2"):
        call_command("import", str(tmp_path / "bad.zip"))
    assert capsys.readouterr().err == "archive: This file is not a zip archive.\n"


def test_with_several_workrooms_one_must_be_named(house, tmp_path):
    Workroom.objects.create(name="New house")
    with pytest.raises(CommandError, match="Say which, with --workroom"):
        call_command("export", str(tmp_path / "out.zip"))


def test_a_folder_that_is_not_there_is_said_plainly(house, tmp_path):
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("export", str(tmp_path / "no" / "out.zip"))
