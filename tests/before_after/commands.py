"""What the commands answer that read a file: to every worked file, and to faulty ones."""

import zipfile
from pathlib import Path

from tests.before_after.pages import as_text
from tests.before_after.stage import TOP, command, plain

READERS = ("assess", "lay", "fullness", "skirt", "bias", "seams")
WAYS = ((), ("--json",), ("--units", "cm"))
HEAD = '{"format": "plate-and-toile %s", "version": 1'
FAULTY = {
    "empty": "",
    "cut short": "{",
    "a list": "[]",
    "a key twice": '{"version": 1, "version": 1}',
    "no number": '{"version": NaN}',
    "of another kind": '{"format": "something else", "version": 1}',
    "nothing in it": HEAD + "}",
    "of tomorrow": '{"format": "plate-and-toile %s", "version": 2}',
    "unknown key": HEAD + ', "colour": "madder", "measures": {"girths": {"waist": 25}}}',
}


def take(folder: Path) -> dict[str, str]:
    """By the words typed: exit code and both outputs, and the files written. `folder` takes those."""
    return _worked(folder) | _faulty(folder) | _of_the_workroom(folder)


def _worked(folder: Path) -> dict[str, str]:
    """Each file to each command, so that a file of another kind is answered too."""
    files = sorted(
        path.relative_to(TOP)
        for kind in ("cases", "lays", "patterns", "sums")
        for path in TOP.glob(f"fixtures/{kind}/*.json")
    )
    found = {
        " ".join([reader, str(file), *way]): command(reader, str(file), *way)
        for reader in READERS
        for file in files
        for way in WAYS
    }
    for file in (file for file in files if file.parent.name == "lays"):
        drawing = folder / f"{file.stem}.svg"
        said = command("lay", str(file), "--svg", str(drawing))
        found[f"lay {file} --svg"] = said + "\n--- drawing\n" + plain(drawing.read_text(encoding="utf-8"))
    return found


def _faulty(folder: Path) -> dict[str, str]:
    found = {}
    for reader in READERS:
        found[f"{reader} --help"] = command(reader, "--help")
        found[f"{reader} without a file"] = command(reader)
        found[f"{reader} absent.json"] = command(reader, "absent.json")
        for name, text in FAULTY.items():
            file = folder / "faulty.json"
            file.write_text(text.replace("%s", reader.replace("assess", "assessment")), encoding="utf-8")
            found[f"{reader}: {name}"] = command(reader, str(file), "--json")
    return found


def _of_the_workroom(folder: Path) -> dict[str, str]:
    """The catalogue as an archive, and a dossier as a PDF; each with what stands in the file."""
    archive, pdf = folder / "catalogue.zip", folder / "dossier.pdf"
    exported = command("export", str(archive), "--workroom", "The Drying Loft")
    printed = command("dossier", "1", "--to", str(pdf), "--full", "--cm", "--paper", "Letter")
    if not zipfile.is_zipfile(archive):
        raise RuntimeError(exported)
    return {
        "export": f"{exported}\n{plain(as_text(archive.read_bytes()))}",
        "dossier --full --cm": f"{printed}\n{plain(as_text(pdf.read_bytes()))}",
    }
