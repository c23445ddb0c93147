from typing import Any, ClassVar

from django.db import models

from catalogue.workroom.models import Workroom, WorkroomModel


class JoinedNames(models.Aggregate):
    """Texts of many rows as one, parted by a mark that nobody types; a page then asks once less."""

    function = "GROUP_CONCAT"
    template = "%(function)s(%(expressions)s, char(31))"
    output_field = models.TextField()
    mark = chr(31)

    def as_postgresql(self, compiler: Any, connection: Any, **more: Any) -> tuple[str, Any]:
        more |= {"function": "STRING_AGG", "template": "%(function)s(%(expressions)s, chr(31))"}
        return self.as_sql(compiler, connection, **more)


class Tag(WorkroomModel):
    """A word of the workroom's own that it puts to garments: “loan”, “to be drawn”, “good stripes”."""

    # What comes back out of the bin bears the tag of that name: its own may be forgotten meanwhile.
    comes_back_by_name: ClassVar[bool] = True

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="tags")
    name = models.CharField(max_length=60)

    class Meta:
        ordering = ("name", "pk")
        constraints = (models.UniqueConstraint(fields=["workroom", "name"], name="one_tag_of_a_name"),)

    def __str__(self) -> str:
        return self.name
