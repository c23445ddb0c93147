"""What goes with a row when it is deleted, said before anything is gone; what became of a sign-in address."""

from collections import Counter
from datetime import datetime

from django.db import models
from django.utils.formats import date_format

from catalogue.workroom.bin import going_with
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.models import WithFiles
from catalogue.workroom.models.one_time import SignInAddress
from catalogue.workroom.persons import OF_PERSON


def what_goes_with(row: models.Model) -> list[str]:
    """Return what else is deleted with `row`, as "3 plates", the most numerous first; and its own file.

    Raises ProtectedError where something keeps the row from being deleted.
    """
    counts = Counter(type(one) for one in going_with(row).rows if one != row)
    # Of as many of each the order is that of their names, whichever model Django has met first.
    in_order = sorted(counts.items(), key=lambda counted: (-counted[1], counted[0]._meta.verbose_name))
    own = ["its file"] if isinstance(row, WithFiles) else []
    return [*(counted(model, count) for model, count in in_order if is_told(model)), *own]


def is_told(model: type[models.Model]) -> bool:
    """Whether a row of it is anything to anybody: index cards and rows that only join two others are not."""
    return model in KINDS or model in OF_PERSON


def counted(model: type[models.Model], count: int) -> str:
    return f"{count} {model._meta.verbose_name if count == 1 else model._meta.verbose_name_plural}"


def how_it_stands(address: SignInAddress, *, at: datetime) -> str:
    if address.used_at:
        return f"used on {date_format(address.used_at, 'j F Y, H:i')}"
    if address.ended_at or address.expires_at <= at:
        return "never used; it opens nothing any more"
    return f"not used yet; it works until {date_format(address.expires_at, 'j F Y, H:i')}"
