"""Makers of long work, which is done for rows of many kinds."""

import datetime

from catalogue.workroom.work.models import Work, WorkedModel

NOON = datetime.datetime(2026, 11, 20, 12, tzinfo=datetime.UTC)


def make_work(row: WorkedModel, **given) -> Work:
    """Long work of the row, done."""
    workroom = row.its_workroom()
    done = {"state": Work.State.DONE, "heartbeat": NOON, "asked_at": NOON}
    return Work.objects.create(**{"row": row, "workroom": workroom, **done, **given})
