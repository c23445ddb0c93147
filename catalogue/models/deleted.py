from datetime import datetime, timedelta

from django.db import models

from catalogue.models.workroom import Workroom, WorkroomModel, WorkroomQuerySet

KEPT_FOR = timedelta(days=30)


class DeletedQuerySet(WorkroomQuerySet):
    def for_list_page(self, at: datetime) -> "DeletedQuerySet":
        """Without the rows themselves, which may be long."""
        return self.filter(created_at__gte=at - KEPT_FOR).defer("rows", "loosened")

    def past_keeping(self, at: datetime) -> "DeletedQuerySet":
        return self.filter(created_at__lt=at - KEPT_FOR)


class Deleted(WorkroomModel):
    """A row that was deleted with all that went with it, so that it can come back as it was.

    `rows`: every row that went, as Django's serializer writes them, those first that others point to.
    `loosened`: what pointed to them and stayed: model, key, field and the key it held.
    Files of photographs and scans lie where they lay.
    """

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="deleted")
    what = models.CharField(max_length=60)
    name = models.CharField(max_length=300)
    by = models.CharField(max_length=150, blank=True)
    rows = models.JSONField()
    loosened = models.JSONField(default=list)

    objects = DeletedQuerySet.as_manager()

    class Meta:
        ordering = ("-created_at", "-pk")
        verbose_name_plural = "deleted"

    def __str__(self) -> str:
        return self.name

    @property
    def gone_for_good_at(self) -> datetime:
        return self.created_at + KEPT_FOR
