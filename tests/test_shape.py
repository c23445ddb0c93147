"""Files, functions and templates stay short enough to be read in one sitting."""

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FILE_LINES, FUNCTION_LINES, TEMPLATE_LINES = 250, 40, 120

# Path, or path::function, and why it may be longer. An entry that is no longer needed fails the test.
EXCEPTIONS: dict[str, str] = {}


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
