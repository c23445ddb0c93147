"""Files, functions and templates stay short enough to be read in one sitting; a part is more than a slice.

A name leads to one place: a class name is borne once, a file name only where it is a word of the house.
"""

import ast
from collections import Counter
from pathlib import Path

from tests.before_after.figures import imports, is_short, with_one_importer

ROOT = Path(__file__).resolve().parents[1]
FILE_LINES, FUNCTION_LINES, TEMPLATE_LINES = 250, 40, 120

# Path, or path::function, and why it may be longer. An entry that is no longer needed fails the test.
EXCEPTIONS: dict[str, str] = {}

# A short module that one other imports is a slice: it joins a neighbour that still holds a page. Those that
# stay are named below, each with its reason.
# Excused are places that have a name of their own in every subject, or stand where Django looks for them.
NAMED = {
    "apps", "calculation", "models", "kinds", "exchange", "loading", "showing", "imaging", "actions", "forms",
    "filters", "views", "guard", "sign_in", "uses", "files", "process",
}  # fmt: skip
DJANGOS = {"management", "templatetags"}
SLICES = {
    "fitting.bench.loading.dressing": "the dressing order is no part of what needs attention",
    "fitting.dossier.showing.fetcher": "imports WeasyPrint, which its importer does late",
    "fitting.pattern.calculation.small_stand": "a sum of its own",
    "fitting.site.data_folder": "needed before there are settings",
}

# What Django, or every subject, calls by one name; `Kind` and `State` stand within the row they are about.
SHARED_CLASS_NAMES = {"Meta", "Command", "Migration", "Kind", "State"}
HOUSE_FILE_NAMES = NAMED | {"__init__", "urls"}
MOST_OF_ONE_FILE_NAME = 6


def own_files(*patterns: str) -> list[Path]:
    """Our files under the working folders; migrations are generated, vendored files are not ours."""
    folders = (ROOT / name for name in ("catalogue", "fitting", "templates", "tests", "fixtures"))
    found = [path for folder in folders for pattern in patterns for path in folder.rglob(pattern)]
    return [path for path in found if not {"migrations", "vendor"} & set(path.relative_to(ROOT).parts)]


def line_count(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def long_functions(path: Path) -> dict[str, int]:
    nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    functions = (node for node in nodes if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))
    lengths = {node.name: (node.end_lineno or node.lineno) - node.lineno + 1 for node in functions}
    return {name: length for name, length in lengths.items() if length > FUNCTION_LINES}


def too_long() -> dict[str, int]:
    """Every place over its limit, with its number of lines."""
    found = {}
    for patterns, limit in ((("*.py", "*.js", "*.css"), FILE_LINES), (("*.html",), TEMPLATE_LINES)):
        for path in own_files(*patterns):
            name = path.relative_to(ROOT).as_posix()
            if line_count(path) > limit:
                found[name] = line_count(path)
            if path.suffix == ".py":
                found |= {f"{name}::{function}": lines for function, lines in long_functions(path).items()}
    return found


def test_what_is_long_has_a_reason():
    unexplained = {place: lines for place, lines in too_long().items() if place not in EXCEPTIONS}
    assert unexplained == {}


def test_every_reason_is_still_needed():
    assert set(EXCEPTIONS) - set(too_long()) == set()


def slices() -> set[str]:
    """Short modules that one other imports. That the addresses name a view makes no slice of it."""
    return {
        module
        for module, importer in with_one_importer(imports()).items()
        if is_short(module) and not importer.endswith(".urls") and not is_named(module)
    }


def is_named(module: str) -> bool:
    parts = module.split(".")
    return parts[-1] in NAMED or not DJANGOS.isdisjoint(parts)


def test_every_slice_has_a_reason():
    assert slices() == set(SLICES)


def own_modules() -> list[Path]:
    return [path for path in own_files("*.py") if "tests" not in path.relative_to(ROOT).parts]


def test_no_class_name_is_borne_twice():
    names = Counter(
        node.name
        for path in own_modules()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and node.name not in SHARED_CLASS_NAMES
    )
    assert {name for name, times in names.items() if times > 1} == set()


def test_no_file_name_but_the_words_of_the_house_is_met_everywhere():
    names = Counter(path.stem for path in own_files("*.py") if path.stem not in HOUSE_FILE_NAMES)
    assert {name: times for name, times in names.items() if times > MOST_OF_ONE_FILE_NAME} == {}
