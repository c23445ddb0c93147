"""Six press the button of one address at the same moment: one of them is let in.

On a database in a file, by the server that people start, since a database in memory has one connection only.
"""

import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from http.cookiejar import CookieJar
from pathlib import Path
from threading import Barrier
from urllib.error import HTTPError
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

import pytest

from fitting.site.server import HOST, free_port
from tests import databases

ROOT = Path(__file__).resolve().parents[2]
AT_ONCE = 6


def started(folder: Path, *words: str) -> subprocess.Popen:
    surroundings = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    surroundings |= {"PLATE_DATA": str(folder), "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "django", *words]
    return subprocess.Popen(command, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, text=True)


@pytest.fixture
def served(tmp_path: Path) -> Iterator[str]:
    databases.lay_in(tmp_path)
    with started(tmp_path, "serve", "--port", str(free_port(HOST, 0))) as program:
        said = (re.search(r"Serving (http://\S+)", line) for line in program.stdout)
        yield next(match for match in said if match)[1]
        program.terminate()


def press(address: str, barrier: Barrier) -> int:
    """Open the page of the address, wait for the others, press its button; the status of the answer."""
    cookies = CookieJar()
    browser = build_opener(HTTPCookieProcessor(cookies))
    page = browser.open(address).read().decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', page)[1]
    barrier.wait()
    try:
        return browser.open(address, urlencode({"csrfmiddlewaretoken": token}).encode()).status
    except HTTPError as refused:
        return refused.code


def test_one_of_six_at_the_same_moment_is_let_in(served, tmp_path):
    with started(tmp_path, "keeper", "agnes", "--at", served) as program:
        address = program.stdout.read().split()[-1]
    barrier = Barrier(AT_ONCE)
    with ThreadPoolExecutor(AT_ONCE) as pool:
        answers = list(pool.map(press, [address] * AT_ONCE, [barrier] * AT_ONCE))
    assert Counter(answers) == {200: 1, 410: 5}
