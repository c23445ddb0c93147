"""The server as people run it: behind nginx, by the words of README, and beside those who hold it up."""

import os
import re
import resource
import socket
import sqlite3
import ssl
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack, closing
from dataclasses import dataclass
from http.client import HTTPConnection, HTTPResponse, HTTPSConnection
from pathlib import Path

import pytest
from django.conf import settings
from waitress.adjustments import Adjustments

from fitting.site import provision
from fitting.site.server import PatientParser, most_connections, trust
from tests import databases

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCK = re.search(r"```nginx\n(.*?)```", README, re.DOTALL)[1]
NAME = re.search(r"server_name (\S+);", BLOCK)[1]
# What README has a person type before the command, and no database of whoever runs the tests.
SETTINGS = dict(re.findall(r"\b(PLATE_\w+)=(\S+)", re.search(r"^PLATE_.* serve$", README, re.MULTILINE)[0]))
HERE, ELSEWHERE = "127.0.0.1", "127.0.0.2"  # two addresses of this machine: the proxy's, and somebody else's

pytestmark = pytest.mark.xdist_group("served")  # they share one server


@dataclass(frozen=True, kw_only=True)
class Served:
    port: int
    plain: int
    secure: int
    folder: Path  # of its data, its certificate and what it says on its terminal
    sign_in: str

    def ask_directly(self, path: str, *, from_address: str = HERE, **headers: str) -> HTTPResponse:
        door = HTTPConnection(HERE, self.port, timeout=20, source_address=(from_address, 0))
        return self._ask(door, "GET", path, headers=headers)

    def ask_plainly(self, path: str, **headers: str) -> HTTPResponse:
        return self._ask(HTTPConnection(HERE, self.plain, timeout=20), "GET", path, headers=headers)

    def ask(self, path: str, method: str = "GET", body: str = "", **headers: str) -> HTTPResponse:
        trust = ssl.create_default_context(cafile=self.folder / "certificate.pem")
        trust.check_hostname = False  # it is asked for by number here
        door = HTTPSConnection(HERE, self.secure, timeout=20, context=trust)
        return self._ask(door, method, path, body=body, headers=headers)

    @staticmethod
    def _ask(door, method: str, path: str, *, headers: dict[str, str], body: str = "") -> HTTPResponse:
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        door.request(method, path, body=body or None, headers={"Host": NAME, **named})
        return door.getresponse()


@pytest.fixture(scope="module")
def served(tmp_path_factory) -> Iterator[Served]:
    assert provision.NGINX.is_there(), provision.how_to_get(provision.NGINX)
    folder = tmp_path_factory.mktemp("served")
    surroundings = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    surroundings |= {"PLATE_DATA": str(folder / "data"), **SETTINGS}
    port, plain, secure = free_ports(3)
    databases.lay_in(folder / "data")
    with ExitStack() as running:
        serve = [sys.executable, "manage.py", "serve", "--port", str(port)]
        terminal = running.enter_context((folder / "terminal").open("w"))
        program = running.enter_context(
            subprocess.Popen(
                serve, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, stderr=terminal, text=True
            )
        )
        running.callback(program.terminate)
        make_certificate(folder)
        proxy = running.enter_context(start_nginx(folder, port=port, plain=plain, secure=secure))
        running.callback(proxy.terminate)
        assert any(line.startswith("Serving") for line in program.stdout)
        keeper = [sys.executable, "manage.py", "keeper", "odile", "--at", f"https://{NAME}"]
        said = subprocess.run(keeper, cwd=ROOT, env=surroundings, capture_output=True, text=True, check=True)
        sign_in = re.search(rf"https://{NAME}(/\S+)", said.stdout)[1]
        yield Served(port=port, plain=plain, secure=secure, folder=folder, sign_in=sign_in)


def free_ports(count: int) -> list[int]:
    with ExitStack() as held:
        doors = [held.enter_context(socket.create_server((HERE, 0))) for _ in range(count)]
        return [door.getsockname()[1] for door in doors]


def make_certificate(folder: Path) -> None:
    command = (
        f"openssl req -x509 -nodes -newkey rsa:2048 -subj /CN={NAME} -keyout key.pem -out certificate.pem"
    )
    subprocess.run(command.split(), cwd=folder, check=True, capture_output=True)


def start_nginx(folder: Path, *, port: int, plain: int, secure: int) -> subprocess.Popen:
    """README's block as it stands there, but for ports and folders that are this test's own."""
    block = BLOCK
    for said, own in [
        ("listen 80;", f"listen {HERE}:{plain};"),
        ("listen 443 ssl;", f"listen {HERE}:{secure} ssl;"),
        ("http://127.0.0.1:8000", f"http://{HERE}:{port}"),
        (re.search(r"ssl_certificate +(\S+);", block)[1], str(folder / "certificate.pem")),
        (re.search(r"ssl_certificate_key +(\S+);", block)[1], str(folder / "key.pem")),
    ]:
        assert block.count(said) == 1
        block = block.replace(said, own)
    kept = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    folders = "".join(f"{name}_temp_path {folder / name};\n" for name in kept)
    # One process, which stays who it is: nothing here needs root, nor anybody else.
    whole = f"daemon off; master_process off; pid {folder / 'pid'}; events {{}}\n"
    (folder / "nginx.conf").write_text(f"{whole}http {{ access_log off;\n{folders}{block}}}\n")
    command = [provision.nginx(), "-p", folder, "-e", folder / "error.log", "-c", folder / "nginx.conf"]
    return subprocess.Popen(command)


def test_who_signs_in_through_the_proxy_is_in(served):
    page = served.ask(served.sign_in)
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', page.read().decode())[1]
    cookie = page.headers["Set-Cookie"].partition(";")[0]
    answer = served.ask(
        served.sign_in,
        "POST",
        f"csrfmiddlewaretoken={token}",
        Cookie=cookie,
        Origin=f"https://{NAME}",
        Content_Type="application/x-www-form-urlencoded",
    )
    assert (answer.status, answer.headers["Location"]) == (302, "/")
    given = dict(one.split("=", 1) for one in answer.headers.get_all("Set-Cookie"))
    assert {"csrftoken", "sessionid"} <= set(given)
    assert all("; Secure" in one for one in given.values())
    assert served.ask("/", Cookie=f"sessionid={given['sessionid'].partition(';')[0]}").status == 200


def test_who_asks_by_https_is_not_sent_round_in_a_circle(served):
    answer = served.ask("/")
    assert (answer.status, answer.headers["Location"]) == (302, "/sign-in/?next=/")
    assert served.ask("/sign-in/?next=/").status == 200


def test_who_asks_plainly_is_sent_to_https_whatever_they_say(served):
    for headers in ({}, {"X_Forwarded_Proto": "https"}):
        answer = served.ask_plainly("/sign-in/", **headers)
        assert (answer.status, answer.headers["Location"]) == (301, f"https://{NAME}/sign-in/")


def test_the_word_of_the_proxy_is_taken_and_nobody_elses(served):
    assert served.ask_directly("/sign-in/", X_Forwarded_Proto="https").status == 200
    forged = served.ask_directly("/sign-in/", from_address=ELSEWHERE, X_Forwarded_Proto="https")
    assert forged.status == 301


@pytest.mark.parametrize("proxy", [None, "192.0.2.7"])
def test_nobody_is_believed_but_the_proxy_that_was_named(settings, proxy):
    settings.PROXY = proxy
    trusted = Adjustments(**trust())
    assert trusted.trusted_proxy == proxy
    assert trusted.clear_untrusted_proxy_headers


def test_no_word_makes_the_program_answer_to_another_name(served):
    said = {"X_Forwarded_Proto": "https", "X_Forwarded_Host": "elsewhere.example"}
    assert served.ask_directly("/sign-in/", **said).status == 200
    assert served.ask("/sign-in/", X_Forwarded_Host="elsewhere.example").status == 200
    assert served.ask("/sign-in/", Host="elsewhere.example").status == 400


def test_the_proxy_takes_what_the_program_takes():
    size = re.search(r"client_max_body_size (\d+)m;", BLOCK)[1]
    assert int(size) << 20 == settings.MOST_SENT_BYTES


def test_whoever_sends_too_much_is_told_so_through_the_proxy_and_past_it(served):
    too_much = {"Content_Length": str(settings.MOST_SENT_BYTES + 1), "Expect": "100-continue"}
    proxys = served.ask("/", "POST", **too_much)
    assert (proxys.status, proxys.headers["Location"]) == (303, f"https://{NAME}/too-much/")
    own = served.ask_directly("/", **too_much)
    assert own.status == 413
    assert own.read() == served.ask("/too-much/").read()


def test_too_much_is_read_to_its_end_and_thrown_away():
    parser = PatientParser(Adjustments(max_request_body_size=100))
    head = b"POST / HTTP/1.1\r\nContent-Length: 250\r\n\r\n"
    ends = []
    for sent in (head, b"x" * 100, b"x" * 150 + b"GET"):
        ends.append((parser.received(sent), parser.completed))
    assert ends == [(len(head), False), (100, False), (150, True)]
    assert parser.error.code == 413
    assert parser.get_body_stream().read() == b""


def test_half_sent_requests_do_not_keep_a_whole_one_waiting(served):
    with ExitStack() as held:
        for _ in range(150):
            half = held.enter_context(closing(socket.create_connection((HERE, served.port), timeout=20)))
            half.sendall(f"POST /sign-in/ HTTP/1.1\r\nHost: {NAME}\r\nContent-Length: 9\r\n\r\nhalf".encode())
        assert served.ask("/sign-in/").status == 200


def test_with_its_database_broken_the_program_still_says_a_number_and_keeps_it(served):
    broken = served.folder / "data" / "workroom.sqlite3"
    with closing(sqlite3.connect(broken, isolation_level=None)) as database:
        database.execute("ALTER TABLE django_session RENAME TO lost")
        answer = served.ask("/", Cookie="sessionid=of987by25")
        database.execute("ALTER TABLE lost RENAME TO django_session")
    assert answer.status == 500
    number = re.search(r"this number: <strong>(\S+)</strong>", answer.read().decode())[1]
    kept = (served.folder / "data" / "faults.log").read_text()
    assert f"fault {number}, GET " in kept
    assert "of987by25" not in kept
    assert (served.folder / "terminal").read_text() == kept


@pytest.mark.parametrize(
    ("soft", "hard", "asked", "connections"),
    [
        (1024, 4096, 2000, 500),  # 500 × 4
        (256, 1024, 1024, 256),  # 1024 ÷ 4
        (256, resource.RLIM_INFINITY, 2000, 500),
        (20_000, 20_000, None, 500),
    ],
)
def test_there_are_no_more_connections_than_files_to_be_had(monkeypatch, soft, hard, asked, connections):
    set_to = []
    monkeypatch.setattr(resource, "getrlimit", lambda which: (soft, hard))
    monkeypatch.setattr(resource, "setrlimit", lambda which, limits: set_to.append(limits))
    assert most_connections() == connections
    assert set_to == ([(asked, hard)] if asked else [])
