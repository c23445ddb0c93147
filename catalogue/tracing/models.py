"""The scan of a plate, its calibrations, and what was traced on it: pieces, level lines, readings."""

from django.conf import settings
from django.db import models
from django.urls import reverse

from catalogue.lengths.models import LengthColumns, LengthField
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import LINE_CHOICES
from catalogue.workroom.files import is_there
from catalogue.workroom.models import WithFiles, WorkroomModel
from catalogue.workroom.work.models import LongWork, WorkedModel

CUTTING = {"being_done": "being prepared", "how_much": "How much of the picture is prepared"}


class TiledPicture(WorkedModel):
    """A picture that long work cuts into tiles. `width` and `height` are its pixels, upright."""

    width = models.PositiveIntegerField(default=0, editable=False)
    height = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        abstract = True


class PlateScan(WithFiles, TiledPicture):
    """The scan or photograph of a plate. The file that was sent is kept, and only tiles of it are served."""

    workroom_path = "plate__reference__workroom"
    long_work = LongWork(by="catalogue.tracing.actions.scan.cut_scan", **CUTTING)

    plate = models.OneToOneField(Plate, on_delete=models.CASCADE, related_name="scan")
    stem = models.CharField(max_length=64, unique=True, editable=False)
    is_photograph = models.BooleanField(
        "taken with a camera", default=False, help_text="Not with a flat scanner: the page may lie aslant."
    )
    # What was found of a printed grid: `pixels` and `squares` (lists of x, y), `pitch_px`, `residual_px`.
    grid = models.JSONField(null=True, editable=False)

    class Meta:
        verbose_name = "scan"

    def __str__(self) -> str:
        return f"scan of {self.plate}"

    def get_absolute_url(self) -> str:
        return reverse("scan-detail", args=[self.plate_id])

    @property
    def folder(self) -> str:
        """The folder of the scan, which holds its tiles and those of its calibrations."""
        return f"scans/{self.stem}/"

    def files(self) -> list[str]:
        return [self.folder]

    @property
    def original(self) -> str:
        return f"{self.folder}original"

    def best_file(self) -> str | None:
        """The file as it was sent, which has no address; None where it is missing."""
        return self.original if is_there(self.original) else None

    @property
    def tiles(self) -> str:
        return f"{self.folder}0.tiles"

    @property
    def size(self) -> tuple[int, int]:
        return self.width, self.height


class Calibration(TiledPicture):
    """How a scan's pixels belong to millimetres at full size. A new one never changes an old one.

    The newest counts from the moment that it is made: its picture, which is cut later, is only looked at.
    """

    class Way(models.TextChoices):
        CORNERS = "corners", "four corners of a rectangle"
        BAR = "bar", "a bar, or two points"
        AXES = "axes", "one length along and one across"
        LENGTHS = "lengths", "several known lengths"
        GRID = "grid", "the grid that was found"
        DRAWN = "drawn", "its own drawing, in millimetres"

    workroom_path = "scan__plate__reference__workroom"
    long_work = LongWork(by="catalogue.tracing.actions.scan.cut_calibration", **CUTTING)

    scan = models.ForeignKey(PlateScan, on_delete=models.CASCADE, related_name="calibrations")
    number = models.PositiveSmallIntegerField()
    way = models.CharField(max_length=8, choices=Way)
    given = models.JSONField()  # the points (pixels) and lengths (text, as typed) that it was made from
    matrix = models.JSONField()  # three rows: a pixel of the scan to millimetres at full size
    relative_doubt = models.FloatField()
    worst_doubt = models.FloatField()
    residual_px = models.FloatField(default=0)
    left_mm = models.FloatField()
    top_mm = models.FloatField()
    mm_per_px = models.FloatField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    made_at = models.DateTimeField()

    class Meta:
        ordering = ("-number",)
        constraints = (models.UniqueConstraint(fields=["scan", "number"], name="calibrations_in_turn"),)

    def __str__(self) -> str:
        return f"calibration {self.number} by {self.get_way_display()}"

    def get_absolute_url(self) -> str:
        return self.scan.get_absolute_url()

    @property
    def tiles(self) -> str:
        return f"{self.scan.folder}{self.number}.tiles"


class TracedPiece(WorkroomModel):
    """The outline and the marks of a piece, as pixels of the scan: no calibration ever moves them."""

    workroom_path = "piece__plate__reference__workroom"

    piece = models.OneToOneField(Piece, on_delete=models.CASCADE, related_name="traced")
    nodes = models.JSONField(default=list, blank=True)  # {"x", "y", "corner", "curved", "edge"} in turn
    marks = models.JSONField(default=list, blank=True)  # {"kind", "points": [[x, y] …], "line"}

    class Meta:
        verbose_name = "traced outline"

    def __str__(self) -> str:
        return f"outline of {self.piece}"


class TracedLevel(WorkroomModel):
    """A level line across pieces of a plate, from one pixel of the scan to another."""

    workroom_path = "plate__reference__workroom"

    plate = models.ForeignKey(Plate, on_delete=models.CASCADE, related_name="traced_levels")
    line = models.CharField("level", max_length=40, choices=LINE_CHOICES)
    points = models.JSONField()

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.line} line"


class TracedReading(WorkroomModel):
    """What tracing gives for one line of a piece, beside the reading by hand that it may have replaced.

    Derived, as an index card is: whatever files the garment writes it anew (`follow_tracings`).
    """

    workroom_path = "piece__plate__reference__workroom"

    piece = models.ForeignKey(Piece, on_delete=models.CASCADE, related_name="traced_readings")
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    reading_um = LengthField()
    take_up_um = LengthField(null=True, blank=True)
    doubt_um = LengthField()
    is_used = models.BooleanField(default=False)
    hand = LengthColumns(null=True, blank=True, text=models.CharField(max_length=80, blank=True))
    hand_take_up = LengthColumns(null=True, blank=True, text=models.CharField(max_length=80, blank=True))

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["piece", "line"], name="one_traced_reading_a_line"),)

    def __str__(self) -> str:
        return f"{self.piece}, {self.line}, traced"
