"""Which workroom a command is about."""

from django.core.management.base import CommandError

from catalogue.workroom.models import Workroom


def workroom_named(name: str | None) -> Workroom:
    """The workroom of that name; the only one where none is named."""
    rooms = Workroom.objects.filter(name=name) if name else Workroom.objects.all()
    found = list(rooms.order_by("pk")[:2])
    if len(found) == 1:
        return found[0]
    if not found:
        raise CommandError(f"There is no workroom “{name}”." if name else "There is no workroom yet.")
    names = ", ".join(f"“{room}”" for room in Workroom.objects.order_by("pk")[:20])
    raise CommandError(f"Several workrooms fit. Say which, with --workroom: {names}.")
