"""Puts small faults into the calculations, one at a time, and tells which no pure test sees.

    python3 manage.py test --faults [HOW MANY [SEED]]

Each fault gets a process of its own, in which those files of tests are run that import its file, then those
that import a file that does, and so on, until a test fails. Only tests count that need no rows and no
browser. A fault that none sees is named; so is the reason, where nobody could see it.
"""

import ast
import gc
import importlib
import os
import random
import resource
import sys
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from types import CodeType

import hypothesis
import pytest

from tests.faults.planting import Fault, faults_of, with_fault
from tests.faults.unseen import UNSEEN

TOP = Path(__file__).resolve().parents[2]
HOW_MANY, SEED = 300, 1
LEAST_SEEN = 0.9
STEPS = 4
OURS = ("catalogue", "fitting", "fixtures", "tests")
# Loaded once, before any of ours: each process is a copy of this one.
LIBRARIES = (
    *("django.test", "django.forms", "pytest_django.plugin"),
    *("hypothesis.strategies", "numpy", "scipy.optimize", "shapely", "networkx", "PIL.Image", "pint"),
    *("uncertainties", "edtf", "ezdxf", "weasyprint", "pypdf", "svgpathtools", "skimage.draw"),
)
# A fault may let a loop run on for ever, or ask for all the memory there is: that is seen too.
MOST_SECONDS, MOST_BYTES = 120, 6 << 30
# Without what asks for the time that is taken.
PURE = (
    *("-q", "-x", "-p", "no:cacheprovider", "-m", "not database and not browser"),
    "--ignore=tests/test_hostile_text.py",
)


class Planted(PathFinder):
    """Finds one module with its fault, before it is found without."""

    def __init__(self, fault: Fault) -> None:
        self.fault = fault

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: object = None
    ) -> ModuleSpec | None:
        if name != module_of(self.fault.file) or not (spec := PathFinder.find_spec(name, path)):
            return None
        spec.loader = Faulty(self.fault)
        return spec


class Faulty(SourceFileLoader):
    def __init__(self, fault: Fault) -> None:
        super().__init__(module_of(fault.file), str(TOP / fault.file))
        self.fault = fault

    def get_code(self, name: str) -> CodeType:
        tree = with_fault(Path(self.path).read_text(encoding="utf-8"), self.fault.file, self.fault.number)
        return compile(tree, self.path, "exec")


class Unshrunk:
    """A plugin of pytest: the first example that fails will do."""

    @pytest.hookimpl(trylast=True)
    def pytest_configure(self) -> None:
        phases = [hypothesis.Phase.explicit, hypothesis.Phase.generate]
        hypothesis.settings.register_profile("unshrunk", phases=phases)
        hypothesis.settings.load_profile("unshrunk")


def module_of(file: str) -> str:
    return file.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def calculations() -> list[str]:
    """Every pure file."""
    files = [*TOP.glob("*/*/calculation.py"), *TOP.glob("*/*/calculation/**/*.py")]
    return sorted(str(file.relative_to(TOP)) for file in files)


def importers() -> dict[str, set[str]]:
    """Of each module, the files that import from it."""
    found = defaultdict(set)
    for file in (one for ours in OURS for one in (TOP / ours).rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module:
                for module in (node.module, *(f"{node.module}.{one.name}" for one in node.names)):
                    found[module].add(str(file.relative_to(TOP)))
    return found


def tests_of(file: str, users: Mapping[str, set[str]]) -> list[str]:
    """The files of tests that try this one, the nearest first, and of these those of its name and subject."""
    near, seen, tests = {file}, {file}, []
    subject = file.split("/")[1]
    for _ in range(STEPS):
        near = set().union(*(users.get(module_of(one), set()) for one in near)) - seen
        seen |= near
        found = (one for one in near if Path(one).name.startswith("test_"))
        tests += sorted(found, key=lambda one: (Path(file).stem not in one, subject not in one, one))
    return tests


def is_seen(fault: Fault, files: Sequence[str]) -> bool:
    """Whether a test fails, or the program does, in a copy of this process, which says nothing."""
    if child := os.fork():
        _, status = os.waitpid(child, 0)
        return os.waitstatus_to_exitcode(status) != 0
    nothing = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nothing, stream)
    os.setsid()
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))
    sys.meta_path.insert(0, Planted(fault))
    ended = pytest.main([*PURE, *files], plugins=[Unshrunk()])
    os._exit(0 if ended == pytest.ExitCode.NO_TESTS_COLLECTED else ended)


def lived(faults: Sequence[Fault]) -> Iterator[Fault]:
    users = importers()
    for fault in faults:
        files = tests_of(fault.file, users)
        if not files or not is_seen(fault, files):
            yield fault


def main(how_many: int = HOW_MANY, seed: int = SEED) -> int:
    # Examples are the same in each process, and none is kept.
    os.environ |= {"CI": "1", "DJANGO_SETTINGS_MODULE": "fitting.site.settings"}
    possible = [fault for file in calculations() for fault in faults_of((TOP / file).read_text(), file)]
    chosen = random.Random(seed).sample(possible, how_many)  # noqa: S311 (which are tried is no secret)
    for library in LIBRARIES:
        importlib.import_module(library)
    gc.freeze()
    print(f"{how_many} of {len(possible)} faults, by the seed {seed}. Those that lived:", flush=True)
    seen = how_many
    for fault in lived(chosen):
        seen -= 1
        print(f"{fault}  {UNSEEN.get((fault.file, fault.was, fault.put), '')}", flush=True)
    print(f"Seen: {seen} of {how_many}, {seen / how_many:.1%}")
    return int(seen < LEAST_SEEN * how_many)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
