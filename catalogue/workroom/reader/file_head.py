"""How a file of ours begins, whatever it holds: it can be opened, it is text, it says which format it is."""

import sys
from pathlib import Path

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.workroom.reader.entries import Table


def read_text(name: str) -> str:
    """The text of a file, or of standard input for “-”. Raises Faults where there is none to read."""
    try:
        octets = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        return octets.decode("utf-8-sig")
    except OSError as error:
        raise Faults([Fault("file", f"{name} cannot be read: {error.strerror}.")]) from error
    except UnicodeDecodeError as error:
        raise Faults([Fault("file", f"{name} is not text in UTF-8.")]) from error


def write_text(name: str, text: str) -> None:
    """Raises Faults where it cannot be written."""
    try:
        Path(name).write_text(text, encoding="utf-8")
    except OSError as error:
        raise Faults([Fault("svg", f"{name} cannot be written: {error.strerror}.")]) from error


def check_format(top: Table, name: str, version: int) -> None:
    """A file may leave out its format and version; naming another is a fault."""
    named = top["format"].text(name)
    if named is not None and named != name:
        top["format"].fault(f"This must be “{name}”.")
    if top["version"].whole(version, least=1, most=10**6) != version:
        top["version"].fault(f"Only version {version} can be read.")
