"""The one test command: provision, every check, then the tests. It takes the place of Django's own."""

import os
import subprocess
import sys
import sysconfig
import tempfile
import time
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand

from fitting.site import provision

IN_TWO_PROCESSES = ("--numprocesses=2",)
SCRIPTS = Path(sysconfig.get_path("scripts"))
POSTGRESQL_LEFT_OUT = "PostgreSQL: left out, only SQLite is tried (DATABASE_URL names a server to try it on)"


def checks() -> dict[str, list[str]]:
    """What runs before the tests: a name for people, and the command."""
    python = sys.executable
    templates = sorted(str(path) for path in settings.BASE_DIR.glob("templates/**/*.html"))
    contracts = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    return {
        "ruff check": [python, "-m", "ruff", "check", "."],
        "ruff format": [python, "-m", "ruff", "format", "--check", "."],
        "types": [python, "-m", "mypy"],
        "import contracts": [python, "-c", contracts],
        "templates": [str(SCRIPTS / "djade"), "--check", "--target-version", "5.2", *templates],
        "migrations": [python, "manage.py", "makemigrations", "--check", "--dry-run"],
    }


class Command(BaseCommand):
    help = "Run every check and all tests; with arguments for pytest, only those tests; --faults tries them."
    requires_system_checks = ()

    def run_from_argv(self, argv: list[str]) -> None:
        # Past Django's own parser: every argument is pytest's.
        with tempfile.TemporaryDirectory() as data:
            os.environ["PLATE_DATA"] = data
            match argv[2:]:
                case []:
                    sys.exit(self.run_everything())
                case ["--faults", *numbers]:
                    sys.exit(self.run_python("tests.faults", *numbers))
                case arguments:
                    sys.exit(self.run_python("pytest", *arguments))

    def run_everything(self) -> int:
        missing = provision.provide(provision.PANGO, provision.CHROMIUM, provision.POPPLER, provision.NGINX)
        for sentence in missing:
            self.stderr.write(sentence)
        if missing:
            return 1
        results = {name: self.run_check(name, command) for name, command in checks().items()}
        notes = [f"{name}: {'passed' if passed else 'FAILED'}" for name, passed in results.items()]
        if not os.environ.get("DATABASE_URL"):
            notes.append(POSTGRESQL_LEFT_OUT)
        # Shown again just above pytest's closing line, where a person looks.
        os.environ["PLATE_CHECKS"] = "\n".join(notes)
        code = self.run_python("pytest", *IN_TWO_PROCESSES)
        return code or int(not all(results.values()))

    def run_check(self, name: str, command: list[str]) -> bool:
        started = time.monotonic()
        run = subprocess.run(command, cwd=settings.BASE_DIR, capture_output=True, text=True, check=False)
        passed = run.returncode == 0
        if not passed:
            self.stdout.write(run.stdout + run.stderr)
        self.stdout.write(f"{name}: {'passed' if passed else 'FAILED'} ({time.monotonic() - started:.1f} s)")
        self.stdout.flush()
        return passed

    def run_python(self, *words: str) -> int:
        return subprocess.run([sys.executable, "-m", *words], cwd=settings.BASE_DIR, check=False).returncode
