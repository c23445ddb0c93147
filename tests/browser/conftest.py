"""The demo workroom, served as a person would serve it, and its keeper at the browser."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from tests import databases
from tests.browser.addresses import Walk, walk
from tests.browser.tracing_page import BACK, FRONT, Sent
from tests.makers.drawn_plates import SQUARE_MM, drawn_plate

ROOT = Path(__file__).resolve().parents[2]
DESKTOP: ViewportSize = {"width": 1280, "height": 900}
# Other tests run beside these: what is slow is no fault. Nothing waits longer than it must.
expect.set_options(timeout=30_000)


@pytest.fixture(scope="package")
def one_time_address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The demo, until the last browser test is done. (manage.py would give it the folder `.demo`.)"""
    folder = tmp_path_factory.mktemp("demo")
    databases.lay_in(folder)
    surroundings = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    surroundings["PLATE_DATA"] = str(folder)
    command = [sys.executable, "-m", "django", "demo", "--port", "0"]
    with subprocess.Popen(command, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, text=True) as program:
        said = []
        for line in program.stdout:
            said.append(line)
            if found := re.search(r"http://\S+/sign-in/once/\S+", line):
                break
        else:
            pytest.fail("The demo named no address to sign in with:\n" + "".join(said))
        yield found[0]
        program.terminate()


@pytest.fixture(scope="package")
def base(one_time_address: str) -> str:
    return re.match(r"http://[^/]+", one_time_address)[0]


@pytest.fixture(scope="package")
def keeper(browser: Browser, base: str, one_time_address: str) -> Iterator[BrowserContext]:
    """The browser of the demo's keeper, signed in through the address that the demo printed."""
    context = browser.new_context(base_url=base, viewport=DESKTOP)
    page = context.new_page()
    page.goto(one_time_address)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("/")
    page.close()
    yield context
    context.close()


@pytest.fixture(scope="package")
def walked(keeper: BrowserContext, pytestconfig: pytest.Config) -> Walk:
    """A walk through the demo once it has a dossier, an invitation and a working pattern to look at too."""
    page = keeper.new_page()
    page.goto("/invitations/add/")
    page.get_by_label("Whom do you invite?").fill("Ines")
    page.get_by_role("button", name="Make the invitation").click()
    page.goto("/outfits/1/")
    page.get_by_role("link", name="Print a dossier").click()
    page.get_by_role("button", name="Make the PDF").click()
    expect(page.get_by_role("link", name="Download the PDF")).to_be_visible(timeout=60_000)
    page.goto("/garments/6/pattern/")
    page.get_by_role("button", name="Begin the working pattern").click()
    page.get_by_role("link", name="Turn a piece over").click()
    page.get_by_role("button", name="Take this step").click()
    expect(page.get_by_text("Version 2: front is turned over.")).to_be_visible()
    page.close()
    return walk(keeper.request, is_thorough=pytestconfig.getoption("thorough"))


@pytest.fixture
def page(keeper: BrowserContext) -> Iterator[Page]:
    """A page of the keeper's. Whatever its console says is a fault: the policy, a script, a lost file."""
    page = keeper.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(f"{page.url}: {message.text}"))
    page.on("pageerror", lambda error: said.append(f"{page.url}: {error}"))
    yield page
    page.close()
    assert said == []


@pytest.fixture(scope="package")
def sent(tmp_path_factory: pytest.TempPathFactory) -> Sent:
    """A drawn plate with two pieces, to send and to trace."""
    outlines = tuple([(x * SQUARE_MM, y * SQUARE_MM) for x, y in piece] for piece in (FRONT, BACK))
    drawn = drawn_plate(6, size=(2400, 1800), pitch=40, outlines=outlines)
    file = tmp_path_factory.mktemp("plate") / "plate.png"
    drawn.picture.save(file)
    return Sent(drawn, str(file))
