"""A fault of the program leaves a trace: a number that people are shown, and beside it where it happened.

What people type is personal, and the words of an exception carry it along ("could not read “34 in”"). So of a
fault only what the program itself wrote is kept: its number and time, the name of the address or the command,
the keys of row and member, files, lines and functions, the class of the exception, the code that system or
database gave it. No message, no address in full, nothing sent, no value of a variable; nor a logger's own
words, since other people's code puts values into them.

It goes to the terminal and to a file in the data folder, by whatever logs an error: Django for a request, the
server for what lies outside one, `note_fault` for long work, `listen` for a command.
"""

import errno
import logging
import os
import secrets
import sys
import traceback
from collections.abc import Iterator
from contextlib import suppress
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseServerError
from django.template.loader import render_to_string

LOG = logging.getLogger(__name__)
COMMAND_LOG = logging.getLogger(f"{__name__}.command")
FILE, MOST_BYTES, FILES_KEPT = "faults.log", 1_000_000, 4
MOST_CALLS, MOST_CAUSES = 60, 5


def new_number() -> str:
    """Digits in two fours, as one says them on the telephone."""
    digits = f"{secrets.randbelow(10**8):08}"
    return f"{digits[:4]}-{digits[4:]}"


def number_of(request: HttpRequest) -> str:
    """The number of the fault that this request met: the same on its page and in its trace."""
    if not hasattr(request, "fault_number"):
        request.fault_number = new_number()
    return request.fault_number


def fault_page(request: HttpRequest) -> HttpResponse:
    """The page of a fault. It looks nothing up: the database may be what is broken."""
    return HttpResponseServerError(render_to_string("500.html", {"number": number_of(request)}))


def note_fault(fault: Exception) -> str:
    """Leave a trace of a fault in long work; return what its row says of it."""
    number = new_number()
    LOG.error("", exc_info=fault, extra={"number": number})
    return (
        f"The program met a fault of its own ({_kind(fault)}). Try once more; if it happens again, tell the "
        f"keeper of the workroom this number: {number}."
    )


def listen() -> None:
    """From now on a command that ends in a fault leaves a trace."""
    sys.excepthook = _left_over


def _left_over(kind: type[BaseException], fault: BaseException, calls: TracebackType | None) -> None:
    # Whoever typed the command is told all, as ever; nobody sees that terminal in a process of long work.
    sys.__excepthook__(kind, fault, calls)
    if issubclass(kind, Exception):
        number = new_number()
        COMMAND_LOG.error("", exc_info=(kind, fault, calls), extra={"number": number})
        print(f"Fault {number}, see {settings.DATA_DIR / FILE}", file=sys.stderr)


class Trace(logging.Formatter):
    """What is kept of a fault. `what`, where there is one, is a sentence of our own, with nothing typed."""

    def format(self, record: logging.LogRecord) -> str:
        request = getattr(record, "request", None)
        is_request = isinstance(request, HttpRequest)
        if not hasattr(record, "number"):
            # Kept in the record, since terminal and file each come here.
            record.number = number_of(request) if is_request else new_number()
        where = _address(request) if is_request else f"manage.py {' '.join(sys.argv[1:2])}"
        lines = [f"{self.formatTime(record)} fault {record.number}, {where}"]
        if hasattr(record, "what"):
            lines.append(f"  {record.what}")
        elif record.exc_info and record.exc_info[1]:
            lines += _causes(record.exc_info[1])
        else:
            lines.append(f"  {record.name} at {record.pathname}:{record.lineno} {record.funcName}")
        return "\n".join(lines)


class FaultFile(RotatingFileHandler):
    """The file in the data folder; when it is full it is put aside, and the oldest of those goes.

    It is opened for each fault alone, since the server and its processes of long work all write to it.
    """

    def __init__(self) -> None:
        super().__init__(FILE, maxBytes=MOST_BYTES, backupCount=FILES_KEPT, encoding="utf-8", delay=True)

    def emit(self, record: logging.LogRecord) -> None:
        self.baseFilename = os.fspath(Path(settings.DATA_DIR, FILE))
        super().emit(record)
        if self.stream:
            self.stream.close()
            self.stream = None

    def handleError(self, record: logging.LogRecord) -> None:
        """Say it and go on: people get their answer all the same. (logging itself would print values.)"""
        with suppress(OSError):
            print(f"The trace of a fault could not be kept: {_kind(sys.exception())}", file=sys.stderr)


def _address(request: HttpRequest) -> str:
    place = request.resolver_match
    # Of what stands in an address only the keys of rows: others are secrets, and words.
    keys = [str(key) for key in place.kwargs.values() if isinstance(key, int)] if place else []
    name = " ".join([place.view_name, *keys]) if place else "no address of ours"
    # Looked up before, or not at all: the database may be what is broken.
    found = getattr(request, "member", None)
    member = f"member {found.pk}" if found else "no member"
    return f"{request.method} {name}, {member}"


def _causes(fault: BaseException) -> Iterator[str]:
    """The fault, then what it came from, each with the calls that led there, the innermost last."""
    for number in range(MOST_CAUSES):
        yield f"  {'from ' if number else ''}{_kind(fault)}"
        for frame, line in list(traceback.walk_tb(fault.__traceback__))[-MOST_CALLS:]:
            yield f"    {frame.f_code.co_filename}:{line} {frame.f_code.co_qualname}"
        cause = fault.__cause__ or (None if fault.__suppress_context__ else fault.__context__)
        if cause is None:
            return
        fault = cause


def _kind(fault: BaseException) -> str:
    """The class, and the code of the system or the database. Never the words."""
    codes = [
        errno.errorcode.get(getattr(fault, "errno", None)),
        getattr(fault, "sqlite_errorname", None),  # sqlite3
        getattr(fault, "sqlstate", None),  # psycopg
    ]
    kind = type(fault)
    module = "" if kind.__module__ == "builtins" else f"{kind.__module__}."
    return " ".join([f"{module}{kind.__qualname__}", *(code for code in codes if code)])
