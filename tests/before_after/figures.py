"""Figures of the house, from its own imports and definitions: files, functions, rooms, importers, circles."""

import ast
import re
from pathlib import Path
from statistics import median, quantiles

import grimp
import networkx

TOP = Path(__file__).resolve().parents[2]
APPS = ("catalogue", "fitting")
SHORT_LINES = 60  # a short file with one importer is a slice, not a part
DJANGOS_WORDS = {"Meta", "State", "Kind", "Command", "Migration"}

# The app that a subject is in, and the words by which its files are known: one stands in the path, whether
# that is led by a layer (views, then the lay) or by the subject itself (laying, then its views).
SUBJECTS = {
    "lay": ("fitting", "lay lays laying cloth shopping"),
    "plates": (
        "catalogue",
        "plate plates piece pieces readings seam seams girth scale agreement draft cutting",
    ),
    "tracing": (
        "catalogue",
        "scan scans tiles trace traced tracing calibration grid homography outline outlines curve marks "
        "overlay dxf svg following gap printed",
    ),
    "sources": ("catalogue", "source sources bibliography bibtex csl cited dates"),
    "references": (
        "catalogue",
        "reference references relation relations question questions study studies tag",
    ),
    "wearers": ("fitting", "wearer wearers measures takes stand stands body"),
    "comparing": (
        "fitting",
        "comparison comparisons comparing case assess assessment verdict route routes quick ease limits",
    ),
    "planning": ("fitting", "task tasks planning plan_chart calendar calendars critical pace waiting slack"),
    "fittings": ("fitting", "session fitting fittings observation observations trial trials toile hold"),
    "dossier": ("fitting", "dossier dossiers"),
}
# The pages over several subjects, the ring where the apps are joined, and where Django looks for a thing.
APART = {"reading_room", "bench", "site", "management", "templatetags"}


def own_files() -> list[Path]:
    found = [path for app in APPS for path in (TOP / app).rglob("*.py")]
    return sorted(path for path in found if "migrations" not in path.parts)


def counted() -> dict[str, object]:
    """Each figure by its name. What is a list is printed as its length, and kept whole."""
    files = {path.relative_to(TOP).as_posix(): path.read_text(encoding="utf-8") for path in own_files()}
    trees = {name: ast.parse(text) for name, text in files.items()}
    lines = {name: len(text.splitlines()) for name, text in files.items()}
    functions = {
        f"{name}::{node.name}": node.end_lineno - node.lineno + 1
        for name, tree in trees.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    }
    return {
        "files": len(files),
        "lines": sum(lines.values()),
        "file length": _spread([count for count in lines.values() if count]),
        "functions": len(functions),
        "function length": _spread(list(functions.values())),
        **{f"rooms of {subject}": rooms for subject, rooms in _rooms(files).items()},
        "class names borne twice": _borne_twice(trees),
        **_imports(),
    }


def _spread(lengths: list[int]) -> str:
    return f"median {median(lengths):g}, p90 {quantiles(lengths, n=10)[-1]:g}, largest {max(lengths)}"


def _rooms(files: dict[str, str]) -> dict[str, list[str]]:
    """The folders below an app that hold a file of the subject; a file beside them stands in the hall."""
    found = {}
    for subject, (app, words) in SUBJECTS.items():
        rooms = set()
        for name in files:
            of_app, _, inside = name.removesuffix(".py").partition("/")
            if of_app == app and set(words.split()) & {*re.split(r"[/_]", inside), *inside.split("/")}:
                rooms.add(inside.split("/")[0] if "/" in inside else "the hall")
        found[subject] = sorted(rooms - APART)
    return found


def _borne_twice(trees: dict[str, ast.Module]) -> list[str]:
    places: dict[str, list[str]] = {}
    for file, tree in trees.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef) and node.name not in DJANGOS_WORDS:
                places.setdefault(node.name, []).append(file)
    return [f"{name}: {', '.join(files)}" for name, files in sorted(places.items()) if len(files) > 1]


def imports() -> networkx.DiGraph:
    """Which module imports which; migrations are loaded by name, and left out."""
    graph = grimp.build_graph(*APPS, cache_dir=None)
    modules = {name for name in graph.modules if ".migrations" not in name}
    return networkx.DiGraph(
        (name, other) for name in modules for other in graph.find_modules_directly_imported_by(name)
    )


def with_one_importer(arrows: networkx.DiGraph) -> dict[str, str]:
    """By module, which other one alone imports it; packages are counted by their parts."""
    alone = (name for name in sorted(arrows) if arrows.in_degree(name) == 1 and file_of(name).is_file())
    return {name: next(iter(arrows.predecessors(name))) for name in alone}


def file_of(module: str) -> Path:
    return TOP / f"{module.replace('.', '/')}.py"


def is_short(module: str) -> bool:
    return len(file_of(module).read_text(encoding="utf-8").splitlines()) < SHORT_LINES


def _imports() -> dict[str, list[str]]:
    """Modules with one importer, and the circles that imports run in."""
    arrows = imports()
    slices = list(with_one_importer(arrows))
    circles = [sorted(circle) for circle in networkx.strongly_connected_components(arrows) if len(circle) > 1]
    return {
        "modules with one importer": slices,
        f"of these under {SHORT_LINES} lines": list(filter(is_short, slices)),
        "import circles": [" – ".join(circle) for circle in sorted(circles)],
    }


def table(*takes: dict[str, object]) -> str:
    """One row a figure, one column a take."""
    names = dict.fromkeys(name for take in takes for name in take)
    rows = [[name, *(_cell(take.get(name, "")) for take in takes)] for name in names]
    widths = [max(len(row[column]) for row in rows) for column in range(len(takes) + 1)]
    return "\n".join("  ".join(map(str.ljust, row, widths)).rstrip() for row in rows)


def _cell(figure: object) -> str:
    return str(len(figure)) if isinstance(figure, list) else str(figure)
