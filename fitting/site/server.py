"""The server for one machine or one workshop: waitress, on this machine only unless told otherwise."""

import gc
import socket
from collections.abc import Callable
from typing import Any

from django.conf import settings

HOST, PORT = "127.0.0.1", 8000


def serve(*, host: str, port: int, ready: Callable[[str], None]) -> None:
    """Answer until interrupted; `ready` is called with the address once the port is ours.

    Raises OSError where the port is taken or the host is not of this machine.
    """
    from django.core.wsgi import get_wsgi_application
    from waitress import create_server

    server = create_server(get_wsgi_application(), host=host, port=port, threads=4, ident="", **_trust())
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


def _trust() -> dict[str, Any]:
    """What the proxy says of a request is taken over; the same said by anybody else is thrown away."""
    told = {"clear_untrusted_proxy_headers": True}
    if settings.PROXY:
        told["trusted_proxy"] = settings.PROXY
        told["trusted_proxy_headers"] = {"x-forwarded-for", "x-forwarded-proto"}
    return told


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
