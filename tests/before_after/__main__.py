"""What people see before a change of the code and after it, laid side by side.

Run by hand, from the top folder, before and after, then compare (it ends with 1 where anything differs):

    python -m tests.before_after take FOLDER
    python -m tests.before_after compare BEFORE AFTER

A take is the same on any day as long as the code does the same: see `stage.py` for how. Each part is one JSON
file in FOLDER, what was asked → what was answered; `figures.json` counts the house itself.
Left out, since they differ by the clock: the places that the solver of lays finds (lays are then packed by
our own code alone), keys drawn at random, and the time of day.
"""

import argparse
import difflib
import json
import os
import sys
import tempfile
from pathlib import Path

from tests.before_after import commands, figures, pages, passed, stage

PARTS = ("pages", "commands")
LINES_SHOWN = 12


def take(folder: Path) -> None:
    folder.mkdir(parents=True)  # never over an earlier take
    with tempfile.TemporaryDirectory() as data:
        stage.open_in(Path(data))
        told = stage.command("demo", "--no-serve")
        people = stage.visitors()
        secrets = stage.prepare(people["keeper"])
        _keep(folder, "pages", pages.take(people, secrets))
        _keep(folder, "commands", {"demo": told} | commands.take(Path(data)))
        counted = figures.counted() | {"passed on the way to a verdict": passed.take(people["keeper"])}
    _keep(folder, "figures", counted)
    print(figures.table(counted))


def _keep(folder: Path, name: str, found: dict[str, object]) -> None:
    text = json.dumps(found, indent=1, ensure_ascii=False)
    (folder / f"{name}.json").write_text(text, encoding="utf-8")
    print(f"{name}: {len(found)}", file=sys.stderr)


def compare(before: Path, after: Path) -> bool:
    """Print what differs; True where nothing that people see does. Figures are shown, never judged."""
    differing = 0
    for part in PARTS:
        old, new = _as_seen(part, _read(before, part)), _as_seen(part, _read(after, part))
        for asked in sorted(old.keys() | new.keys()):
            if old.get(asked) != new.get(asked):
                differing += 1
                print(f"\n{part}: {asked}\n{_difference(old.get(asked, ''), new.get(asked, ''))}")
        print(f"{part}: {len(old)} before, {len(new)} after")
    print(figures.table(_read(before, "figures"), _read(after, "figures")))
    print(f"\n{differing} differ" if differing else "\nNothing that people see differs.")
    return not differing


def _read(folder: Path, part: str) -> dict:
    return json.loads((folder / f"{part}.json").read_text(encoding="utf-8"))


def _as_seen(part: str, found: dict[str, str]) -> dict[str, str]:
    """Of a page, without blank lines and indents: a browser shows neither."""
    if part != "pages":
        return found
    return {
        asked: "\n".join(filter(None, map(str.strip, text.splitlines()))) for asked, text in found.items()
    }


def _difference(old: str, new: str) -> str:
    lines = list(
        difflib.unified_diff(old.splitlines(), new.splitlines(), "before", "after", lineterm="", n=0)
    )
    more = [f"… and {len(lines) - LINES_SHOWN} lines more"] if len(lines) > LINES_SHOWN else []
    return "\n".join(line[:300] for line in lines[:LINES_SHOWN] + more)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.before_after", description=__doc__.split("\n")[0])
    deeds = parser.add_subparsers(dest="deed", required=True)
    deeds.add_parser("take").add_argument("folder", type=Path)
    both = deeds.add_parser("compare")
    both.add_argument("before", type=Path)
    both.add_argument("after", type=Path)
    given = parser.parse_args()
    if given.deed == "take":
        if os.environ.get("PYTHONHASHSEED") != "0":
            # Some libraries write what is in a set as it comes: of one seed, it comes in one order.
            os.environ["PYTHONHASHSEED"] = "0"
            os.execv(sys.executable, [sys.executable, "-m", "tests.before_after", *sys.argv[1:]])  # noqa: S606
        take(given.folder)
    elif not compare(given.before, given.after):
        sys.exit(1)


if __name__ == "__main__":
    main()
