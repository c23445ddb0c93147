"""Two machines get the same packages: whatever pyproject.toml asks for is pinned, without addresses."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
PINS = ROOT / "fitting" / "site" / "pins"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]


def pinned(name: str) -> dict[str, str]:
    """Package and version of each pin."""
    lines = re.findall(r"^([\w.-]+)(?:\[.*?\])?==([\w.]+)", (PINS / f"{name}.txt").read_text(), re.MULTILINE)
    return {canonicalize_name(package): version for package, version in lines}


@pytest.mark.parametrize(
    ("name", "requirements"),
    [("run", PROJECT["dependencies"]), ("test", PROJECT["optional-dependencies"]["test"])],
)
def test_every_dependency_is_pinned_within_its_bounds(name, requirements):
    pins = pinned(name)
    for requirement in map(Requirement, requirements):
        assert requirement.specifier.contains(pins[canonicalize_name(requirement.name)]), requirement


def test_tests_run_with_the_very_packages_that_people_get():
    assert pinned("run").items() <= pinned("test").items()


@pytest.mark.parametrize("name", ["run", "test"])
def test_every_pin_has_a_checksum_and_no_address(name):
    text = (PINS / f"{name}.txt").read_text()
    pins = re.split(r"\n(?=\w)", text.strip())
    assert len(pins) == len(pinned(name))
    assert all("--hash=sha256:" in pin for pin in pins)
    assert "//" not in text
