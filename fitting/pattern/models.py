from django.conf import settings
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.sums.table import TITLES
from fitting.wearers.models import Wearer


class WorkingVersionQuerySet(WorkroomQuerySet):
    def newest_first(self) -> "WorkingVersionQuerySet":
        return self.order_by("-number")

    def for_history(self) -> "WorkingVersionQuerySet":
        """Without the pieces, of which each version holds its own."""
        return self.defer("pattern").select_related("made_by", "made_from").order_by("-number")


class WorkingVersion(KeyedModel):
    """The paper of a garment after one step: its pieces at full size, and what was done. Never edited.

    `pattern` is a `Pattern` and `asked` what its step was asked, both as the codec keeps them. `rests_on`
    says of each plate and of the measures how they were when the pattern was begun.
    """

    START, BACK, BROUGHT_IN = "start", "go back", "brought in"

    workroom_path = "garment__outfit__workroom"
    is_personal = True

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="pattern_versions")
    # The person measured, kept apart from the outfit so that erasing finds every figure taken from them.
    wearer = models.ForeignKey(Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="+")
    number = models.PositiveIntegerField()
    made_from = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.SET_NULL, related_name="led_to"
    )
    step = models.CharField(max_length=30)
    asked = models.JSONField(default=dict)
    said = models.TextField()
    changed = models.JSONField(default=dict)
    broke = models.JSONField(default=list)
    pattern = models.JSONField()
    rests_on = models.JSONField(default=dict)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )

    objects = WorkingVersionQuerySet.as_manager()

    class Meta:
        ordering = ("number",)
        constraints = (models.UniqueConstraint(fields=["garment", "number"], name="versions_in_turn"),)

    def __str__(self) -> str:
        return f"pattern version {self.number} of {self.garment}"

    def get_absolute_url(self) -> str:
        return reverse("pattern-version", args=[self.pk])


class CuttingTick(WorkroomModel):
    """What a maker says is done before a version is cut, and the program cannot know."""

    class What(models.TextChoices):
        TOILE = "toile", "toile settled, or none is needed"
        ALLOWANCES = "allowances", "the usual allowance of the sheets counts"
        INLAYS = "inlays", "no inlay is wanted"
        LIST = "list", "cutting list checked"
        PAIRS = "pairs", "pairs checked: left and right"
        NAP = "nap", "nap and right side marked"
        SHEETS = "sheets", "sheets of this version printed, squares measured"
        BOUGHT = "bought", "cloth is there"
        SHRUNK = "shrunk", "cloth shrunk and pressed"

    workroom_path = "version__garment__outfit__workroom"

    version = models.ForeignKey(WorkingVersion, on_delete=models.CASCADE, related_name="cutting_ticks")
    what = models.CharField(max_length=10, choices=What)
    ticked_at = models.DateTimeField()
    ticked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["version", "what"], name="one_cutting_tick_each"),)

    def __str__(self) -> str:
        return self.get_what_display()


def work_kinds() -> list[tuple[str, str]]:
    """Every sum that has a page, and what else is kept as one: a new sum asks for no migration."""
    return list(TITLES.items())


class WorkNoteQuerySet(WorkroomQuerySet):
    def for_detail_page(self) -> "WorkNoteQuerySet":
        return self.select_related("garment__outfit__workroom", "made_by")


class WorkNote(KeyedModel):
    """A sheet of pattern work that was kept: what went in, as typed, and what came out. Never edited.

    `results` are those of `Worked`: lengths are millimetres, unrounded, so that anybody reads them in their
    own unit.
    """

    GRADE, SHEETS = "grade", "sheets"  # no sums that are typed

    workroom_path = "garment__outfit__workroom"
    is_personal = True

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="work_notes")
    # The person measured, kept apart from the outfit so that erasing finds every figure taken from them.
    wearer = models.ForeignKey(Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="+")
    kind = models.CharField(max_length=10, choices=work_kinds)
    inputs = models.JSONField()
    results = models.JSONField()
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )

    objects = WorkNoteQuerySet.as_manager()

    class Meta:
        ordering = ("-made_at", "-pk")

    def __str__(self) -> str:
        return f"{self.get_kind_display()} of {self.garment}, {timezone.localdate(self.made_at):%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("work-note-detail", args=[self.pk])
