#!/usr/bin/env python3
"""Every command of the program. The first one typed makes the environment that it needs."""

import os
import sys

from fitting.site import first_run


def main():
    first_run.enter(sys.argv[1:])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitting.site.settings")
    if sys.argv[1:2] == ["demo"]:
        # The demo has a folder and a database of its own, whatever the machine is set to.
        os.environ["PLATE_DATA"] = os.path.join(first_run.ROOT, ".demo")
        os.environ.pop("DATABASE_URL", None)
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
