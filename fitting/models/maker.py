"""What a maker states once: their skills, their own limits, their hours."""

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from catalogue.lengths.models import LengthField, TypedText


class Maker(models.Model):
    """Limits default to common practice (no source); each maker sets their own."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="maker")
    fits_um = LengthField("counts as fitting, up to", default=12_700)
    fits_text = TypedText(default="1/2 in")
    add_um = LengthField("can be added, up to", default=76_200)
    add_text = TypedText(default="3 in")
    take_off_um = LengthField("can be taken off, up to", default=76_200)
    take_off_text = TypedText(default="3 in")
    per_edge_um = LengthField("most for each edge that may take it", default=12_700)
    per_edge_text = TypedText(default="1/2 in")
    length_fits_um = LengthField("a length counts as fitting, up to", default=6_350)
    length_fits_text = TypedText(default="1/4 in")
    length_alter_um = LengthField("a length can be altered, up to", default=38_100)
    length_alter_text = TypedText(default="1 1/2 in")
    stale_days = models.PositiveSmallIntegerField(
        "measures are stale after, days", default=90, validators=[MinValueValidator(1)]
    )
    hours_a_day = models.FloatField(default=2, validators=[MinValueValidator(0.1), MaxValueValidator(24)])

    def __str__(self) -> str:
        return f"limits of {self.user}"


class Skill(models.Model):
    class Name(models.TextChoices):
        ALTER = "alter", "alter"
        GRADE = "grade", "grade"
        DRAPE = "drape", "drape"
        COMBINE = "combine", "combine"
        DRAFT = "draft", "draft"

    class Level(models.TextChoices):
        NONE = "none", "not yet"
        LEARNING = "learning", "learning"
        WORKING = "working", "working"

    maker = models.ForeignKey(Maker, on_delete=models.CASCADE, related_name="skills")
    name = models.CharField(max_length=10, choices=Name)
    level = models.CharField(max_length=10, choices=Level, default=Level.NONE)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["maker", "name"], name="one_level_a_skill"),)

    def __str__(self) -> str:
        return f"{self.name}: {self.level}"
