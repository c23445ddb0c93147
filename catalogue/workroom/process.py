"""Starts a command of this program in a short-lived process, outside the request that asks for it."""

import os
import subprocess
import sys
import threading

from django.conf import settings

from catalogue.workroom.faults import LOG

# On Windows there are no sessions: these flags do what start_new_session does elsewhere.
_DETACHED_ON_WINDOWS = getattr(subprocess, "DETACHED_PROCESS", 0) | getattr(
    subprocess, "CREATE_NEW_PROCESS_GROUP", 0
)


def start_command(*words: str) -> None:
    """Start `manage.py WORDS`, which outlives this request and a restart of the server."""
    process = subprocess.Popen(  # noqa: S603  our own program, with words of its own and numbers
        [sys.executable, str(settings.BASE_DIR / "manage.py"), *words],
        env={**os.environ, "PLATE_DATA": str(settings.DATA_DIR)},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
        creationflags=_DETACHED_ON_WINDOWS,
    )
    # Somebody must ask how it ended, or it stays in the table of processes until the server stops.
    threading.Thread(target=_see_off, args=(process, words[0]), daemon=True).start()


def _see_off(process: "subprocess.Popen[bytes]", command: str) -> None:
    """Leave a trace of a process that could say nothing itself: killed, out of memory, never begun."""
    if code := process.wait():
        LOG.error("", extra={"what": f"the process of {command} ended with {code}"})
