import hashlib

import pytest
from django.core.management import CommandError, call_command
from pypdf import PdfReader

from tests.makers.rows import make_outfit

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("named", ["Visiting dress", "number"])
def test_an_outfit_is_printed_by_name_or_number(people, tmp_path, capsys, named):
    outfit = make_outfit(people.workroom)
    file = tmp_path / "dossier.pdf"
    name = str(outfit.pk) if named == "number" else named
    call_command("dossier", name, "--to", str(file), "--paper", "Letter", "--cm")
    assert f"{file}: 2 pages" in capsys.readouterr().out
    page = PdfReader(file).pages[0]
    assert page.mediabox.width == 612
    assert [one.name for one in tmp_path.iterdir() if "dossier" in one.name] == ["dossier.pdf"]


def test_a_name_that_is_unknown_or_several_says_what_there_is(people, tmp_path):
    first, second = make_outfit(people.workroom), make_outfit(people.workroom)
    for name, said in (("Ball gown", "No outfit “Ball gown”"), ("Visiting dress", "Several outfits")):
        with pytest.raises(CommandError, match=said) as fault:
            call_command("dossier", name, "--to", str(tmp_path / "x.pdf"))
        assert f"{first.pk} Visiting dress; {second.pk} Visiting dress" in str(fault.value)


def test_a_folder_that_is_not_there_is_a_plain_fault(people, tmp_path):
    outfit = make_outfit(people.workroom)
    with pytest.raises(CommandError, match="cannot be written: No such file or directory"):
        call_command("dossier", str(outfit.pk), "--to", str(tmp_path / "gone" / "x.pdf"))


def test_printed_again_on_the_same_day_it_says_that_the_bytes_are_the_same(people, tmp_path, capsys):
    outfit, file = make_outfit(people.workroom), tmp_path / "dossier.pdf"
    call_command("dossier", str(outfit.pk), "--to", str(file))
    once = capsys.readouterr().out
    assert f"SHA-256 {hashlib.sha256(file.read_bytes()).hexdigest()}" in once
    assert "file that was there" not in once
    call_command("dossier", str(outfit.pk), "--to", str(file))
    assert capsys.readouterr().out == f"{once}Byte for byte the same as the file that was there.\n"
    outfit.notes = "Now in linen."
    outfit.save()
    call_command("dossier", str(outfit.pk), "--to", str(file))
    assert "Not the same as the file that was there." in capsys.readouterr().out
