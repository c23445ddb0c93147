#!/usr/bin/env python3
"""Every command of the program. The first one typed makes the environment that it needs."""

import os
import sys

from fitting.site import first_run


def main():
    first_run.enter(sys.argv[1:])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitting.site.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
