"""The server for one machine or one workshop: waitress, on this machine only unless told otherwise.

It reads a request whole before a thread takes it up. So whoever sends slowly, or stops half-way, holds a
connection and no thread; connections are many, and one that stays silent is closed.
"""

import gc
import select
import socket
from collections.abc import Callable
from typing import Any

try:
    import resource
except ImportError:  # Windows, where files are not counted
    resource = None

from django.conf import settings
from django.template.loader import render_to_string
from waitress import create_server
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.utilities import RequestEntityTooLarge

from fitting.site.security import POLICY

HOST, PORT = "127.0.0.1", 8000
MOST_CONNECTIONS = 500
# Its socket, two for what it sends and gets where that is long, and one to spare for the program itself.
FILES_A_CONNECTION = 4
SILENT_S = 20


def serve(*, host: str, port: int, ready: Callable[[str], None]) -> None:
    """Answer until interrupted; `ready` is called with the address once the port is ours.

    Raises OSError where the port is taken or the host is not of this machine.
    """
    from django.core.wsgi import get_wsgi_application

    HTTPChannel.parser_class = PatientParser  # for which waitress has no setting
    server = create_server(
        get_wsgi_application(), host=host, port=port, threads=4, ident="", **_bounds(), **trust()
    )
    # The program itself is there to stay: to look it through for garbage took a tenth of a second.
    gc.collect()
    gc.freeze()
    ready(f"http://{host}:{port}")
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()


def _bounds() -> dict[str, Any]:
    return {
        "connection_limit": most_connections(),
        "channel_timeout": SILENT_S,
        "cleanup_interval": 5,
        "asyncore_use_poll": hasattr(select, "poll"),  # select() itself knows no file beyond the 1024th
        "max_request_header_size": 32 * 1024,  # what proxies pass on too
        "max_request_body_size": settings.MOST_SENT_BYTES,
        "inbuf_overflow": 64 * 1024,  # of that lies in memory; five hundred times more would be too much
    }


def most_connections() -> int:
    """As many as there may be open files for, after asking the system for enough."""
    wanted = MOST_CONNECTIONS * FILES_A_CONNECTION
    if resource is None:
        return MOST_CONNECTIONS
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    if soft == resource.RLIM_INFINITY or soft >= wanted:
        return MOST_CONNECTIONS
    files = wanted if hard == resource.RLIM_INFINITY else min(wanted, hard)
    resource.setrlimit(resource.RLIMIT_NOFILE, (files, hard))
    return files // FILES_A_CONNECTION


def trust() -> dict[str, Any]:
    """What the proxy says of a request is taken over; the same said by anybody else is thrown away."""
    told = {"clear_untrusted_proxy_headers": True}
    if settings.PROXY:
        told["trusted_proxy"] = settings.PROXY
        told["trusted_proxy_headers"] = {"x-forwarded-for", "x-forwarded-proto"}
    return told


class RequestTooLarge(RequestEntityTooLarge):
    def to_response(self, ident: str | None = None) -> tuple[str, list[tuple[str, str]], bytes]:
        headers = [("Content-Type", "text/html; charset=utf-8"), ("Content-Security-Policy", POLICY)]
        return f"{self.code} {self.reason}", headers, render_to_string("413.html").encode()


class PatientParser(HTTPRequestParser):
    """Reads too large a request to its end and keeps none of it: a browser shows no answer before that."""

    left = 0  # bytes to throw away

    def received(self, data: bytes) -> int:
        if self.left:
            taken = min(self.left, len(data))
            self.left -= taken
            self.completed = not self.left
            return taken
        taken = super().received(data)
        if isinstance(self.error, RequestEntityTooLarge):
            self.error = RequestTooLarge("")
            # Who asks before sending is answered at once; of what comes in chunks nobody knows the end.
            self.left = 0 if self.expect_continue else self.content_length
            self.expect_continue = False
            self.completed = not self.left
        return taken


def free_port(host: str, wanted: int) -> int:
    """`wanted` if nothing listens there, else any port that is free now."""
    for port in (wanted, 0):
        with socket.socket() as trial:
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                trial.bind((host, port))
            except OSError:
                continue
            return trial.getsockname()[1]
    raise OSError(f"No port is free on {host}.")
