from django.conf import settings
from django.db import models

from catalogue.workroom.models import WorkroomModel


class CalendarAddress(WorkroomModel):
    """A secret address at which a person's calendar program reads the days of a workroom.

    The program cannot sign in: whoever has the address reads it, so it holds no measure and no wearer's
    name. Only a digest of its secret part is kept; a new address puts an end to the one before.
    """

    workroom = models.ForeignKey(
        "catalogue.Workroom", on_delete=models.CASCADE, related_name="calendar_addresses"
    )
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="calendar_addresses"
    )
    digest = models.CharField(max_length=64, unique=True, editable=False)
    read_at = models.DateTimeField("last read", null=True, editable=False)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["workroom", "user"], name="one_calendar_address_a_member"),
        )

    def __str__(self) -> str:
        return f"calendar of {self.workroom} for {self.user}"
