"""What the program needs from the system: a table, and the one function that gets it or says how to get it.

Only the standard library: the first run asks for `VENV` before any package is there.
"""

import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    name: str
    use: str
    debian: tuple[str, ...]
    elsewhere: str
    is_there: Callable[[], bool]


def chromium() -> str | None:
    """The path of the browser that the tests drive."""
    return shutil.which("chromium") or shutil.which("google-chrome") or shutil.which("chromium-browser")


def nginx() -> str | None:
    """The path of the proxy that the tests put before the server; Debian keeps it off most people's path."""
    return shutil.which("nginx") or shutil.which("nginx", path="/usr/sbin")


def _pango_loads() -> bool:
    # In another process: a library that failed to load once stays half-loaded in this one.
    trial = [sys.executable, "-c", "import weasyprint"]
    return subprocess.run(trial, capture_output=True, check=False).returncode == 0


VENV = Need(
    name="Python's ensurepip",
    use="making the environment in .venv",
    debian=(f"python{sys.version_info.major}.{sys.version_info.minor}-venv",),
    elsewhere="it comes with Python from python.org",
    is_there=lambda: importlib.util.find_spec("ensurepip") is not None,
)
PANGO = Need(
    name="Pango",
    use="writing PDFs",
    debian=("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0"),
    elsewhere="macOS: brew install pango; Windows: the GTK libraries of MSYS2",
    is_there=_pango_loads,
)
CHROMIUM = Need(
    name="Chromium",
    use="the tests in a browser",
    debian=("chromium",),
    elsewhere="install Chromium or Chrome so that it can be started by name",
    is_there=lambda: chromium() is not None,
)
POPPLER = Need(
    name="pdftoppm",
    use="the tests that look at PDF pages",
    debian=("poppler-utils",),
    elsewhere="macOS: brew install poppler",
    is_there=lambda: shutil.which("pdftoppm") is not None,
)
NGINX = Need(
    name="nginx, or openssl",
    use="the tests of the server behind a proxy",
    debian=("nginx", "openssl"),
    elsewhere="macOS: brew install nginx openssl",
    is_there=lambda: nginx() is not None and shutil.which("openssl") is not None,
)


def provide(*needs: Need) -> list[str]:
    """Install what is absent where that is possible (root on Debian); say how to get what stays absent."""
    absent = [need for need in needs if not need.is_there()]
    if absent and _is_debian() and os.geteuid() == 0:
        _install(sorted(package for need in absent for package in need.debian))
        importlib.invalidate_caches()
        absent = [need for need in absent if not need.is_there()]
    return [how_to_get(need) for need in absent]


def _is_debian() -> bool:
    return os.path.exists("/etc/debian_version") and shutil.which("apt-get") is not None


def _install(packages: list[str]) -> None:
    print("Installing from Debian:", *packages, file=sys.stderr, flush=True)
    # Offline: what is installed for a test shall not start to serve the machine.
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive", "SYSTEMD_OFFLINE": "1"}
    for step in (["update"], ["install", "-y", "--no-install-recommends", *packages]):
        subprocess.run(
            ["apt-get", "-qq", "-o", "Dpkg::Use-Pty=0", *step],
            stdin=subprocess.DEVNULL,
            stdout=sys.stderr,
            env=quiet,
            check=False,
        )


def how_to_get(need: Need) -> str:
    """One sentence: what is missing, what for, and what to type."""
    how = f"type: sudo apt-get install {' '.join(need.debian)}" if _is_debian() else need.elsewhere
    return f"{need.name} is missing ({need.use}); {how}"
