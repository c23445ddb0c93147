"""A plate: a scaled diagram of a garment, with its scale, its allowance and where it fastens."""

from django.db import models
from django.urls import reverse

from catalogue.lengths.calculation.lengths import format_length
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import NO_LENGTH, LengthColumns, TypedLength
from catalogue.references.models.garment import LINE_CHOICES, ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet


class PlateQuerySet(WorkroomQuerySet):
    def for_detail_page(self) -> "PlateQuerySet":
        return self.select_related("reference__workroom", "source", "picture").prefetch_related(
            "pieces__readings",
            "fastenings",
            "seams__piece_a",
            "seams__piece_b",
            "reference__published_measures",
        )

    def with_newest_matrix(self) -> "PlateQuerySet":
        """`newest_matrix`: of the newest calibration; None where there is none."""
        itself = self.model._base_manager.filter(pk=models.OuterRef("pk"))
        newest = itself.order_by("-scan__calibrations__number").values("scan__calibrations__matrix")[:1]
        return self.annotate(newest_matrix=models.Subquery(newest))

    def newest_doubt(self, plate: "Plate") -> float | None:
        """The relative doubt of the plate's newest calibration; None where there is none."""
        newest = self.filter(pk=plate.pk).order_by("-scan__calibrations__number")
        return newest.values_list("scan__calibrations__relative_doubt", flat=True).first()

    def kinds_drafted(self) -> "PlateQuerySet":
        """Dress and kind of each garment that there is a proportional draft of."""
        drafts = self.filter(kind=self.model.Kind.DRAFT).order_by()
        return drafts.values_list("reference__dress", "reference__kind").distinct()

    def with_open_questions(self) -> "PlateQuerySet":
        """Those whose seam allowance or making-up is not known; `unknown_seams` of their `seam_count`."""
        unknown = models.Q(seams__evidence="unknown")
        return (
            self.select_related("reference")
            .annotate(seam_count=models.Count("seams"), unknown_seams=models.Count("seams", filter=unknown))
            .filter(models.Q(allowance=Plate.AllowanceKind.UNKNOWN) | models.Q(unknown_seams__gt=0))
            .order_by("reference__name", "pk")
        )


# A proportional draft is in parts of what can be measured on a body.
BODY_LINES = [(key, line.label) for key, line in LINES.items() if line.on_body]


class Plate(KeyedModel):
    """One published or own scaled diagram of a reference garment."""

    class Kind(models.TextChoices):
        DIAGRAM = "diagram", "a diagram of one garment"
        DRAFT = "draft", "a proportional draft: its figures are parts of a body measure"

    class ScaleKind(models.TextChoices):
        RATIO = "ratio", "a ratio (1:8)"
        WORDS = "words", "words (1 in = 8 in)"
        GRID = "grid", "a grid (one square stands for 1 in)"
        BAR = "bar", "a printed bar, or one known length"
        FIGURES = "figures", "figures printed on it, at full size"

    class ReadFrom(models.TextChoices):
        BOOK = "book", "the book itself (0.5 %)"
        COPY = "copy", "a copy or a photograph of it (1.5 %)"

    class AllowanceKind(models.TextChoices):
        NONE = "none", "none: the lines are the seam lines"
        INCLUDED = "included", "included in the drawing"
        UNKNOWN = "not known", "not known"

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="plates")
    source = models.ForeignKey(
        Source, null=True, blank=True, on_delete=models.SET_NULL, related_name="plates"
    )
    title = models.CharField(max_length=160, blank=True)
    page = models.CharField("page or figure", max_length=60, blank=True)
    kind = models.CharField("what it shows", max_length=10, choices=Kind, default=Kind.DIAGRAM)
    drawn_for_line = models.CharField(
        "its figures are parts of", max_length=40, choices=BODY_LINES, blank=True
    )
    drawn_for_half = models.BooleanField(
        "of half that girth", default=True, help_text="As in a draft for half a breast of 18 in."
    )
    drawn_for = LengthColumns(
        "drawn for", null=True, blank=True, help_text="As the draft says: the half where it is a half."
    )
    picture = models.ForeignKey(
        "catalogue.Photo", null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    scale_kind = models.CharField("scale given as", max_length=10, choices=ScaleKind, default=ScaleKind.RATIO)
    ratio = models.CharField(max_length=20, blank=True, default="1:8")
    page_length = LengthColumns("on the page", null=True, blank=True)
    real = LengthColumns("full size", null=True, blank=True)
    # Paper stretches one way: a grid may be longer across than along. Empty: the same both ways.
    across_page = LengthColumns("the same, measured across", null=True, blank=True)
    read_from = models.CharField(max_length=10, choices=ReadFrom, default=ReadFrom.BOOK)
    allowance = models.CharField(
        "seam allowance", max_length=10, choices=AllowanceKind, default=AllowanceKind.UNKNOWN
    )
    allowance_length = LengthColumns("allowance at full size", null=True, blank=True)
    rule = LengthColumns("smallest division of your rule", default=TypedLength(text="1/16 in", um=1_588))
    drawing = LengthColumns("drawing error at full size", default=TypedLength(text="1/16 in", um=1_588))
    is_half = models.BooleanField(
        "pieces show half the garment, centre front to centre back",
        default=True,
        help_text="The usual plate: every piece is cut twice.",
    )
    notes = models.TextField(blank=True)

    objects = PlateQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return self.title or f"Plate of {self.reference}"

    def get_absolute_url(self) -> str:
        return reverse("plate-detail", args=[self.pk])

    @property
    def is_draft(self) -> bool:
        return self.kind == self.Kind.DRAFT

    @property
    def drawn_for_in_words(self) -> str:
        """The measure that a proportional draft was drawn for: “half bust or chest 18 in”."""
        half = "half " if self.drawn_for_half else ""
        length = self.drawn_for or NO_LENGTH
        return f"{half}{LINES[self.drawn_for_line].label} {length.text or format_length(length.mm)}"

    @property
    def drawn_in_words(self) -> str:
        """How it is drawn: “scale 1:8”, and of a proportional draft the measure that it is for."""
        words = self.scale_in_words
        if self.scale_kind != self.ScaleKind.FIGURES:
            words = f"scale {words}"
        return f"{words}, a proportional draft for {self.drawn_for_in_words}" if self.is_draft else words

    @property
    def scale_in_words(self) -> str:
        """The scale as the plate gives it: “1:8”, “1/8 in on the page is 1 in”."""
        if self.scale_kind == self.ScaleKind.RATIO:
            return self.ratio
        if self.scale_kind == self.ScaleKind.FIGURES:
            return "figures printed at full size"
        across = f" ({self.across_page_text} across)" if self.across_page_text else ""
        return f"{self.page_text}{across} on the page is {self.real_text}"


class Fastening(WorkroomModel):
    """What lies double, and what stays open, where the garment fastens. Full size, taken once round the body.

    A level's own row goes before the row for every level; what it leaves empty is as at every level.
    """

    workroom_path = "plate__reference__workroom"

    plate = models.ForeignKey(Plate, on_delete=models.CASCADE, related_name="fastenings")
    line = models.CharField("level", max_length=40, choices=[("", "every level"), *LINE_CHOICES], blank=True)
    overlap = LengthColumns("overlap", null=True, blank=True)
    gap = LengthColumns("lacing gap", null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["plate", "line"], name="one_fastening_a_level"),)

    def __str__(self) -> str:
        return f"fastening at {self.line or 'every level'}"
