from django.db import models
from django.db.models.functions import Coalesce
from django.urls import reverse

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import LengthColumns
from catalogue.references.models.tag import JoinedNames, Tag
from catalogue.sources.models import Source
from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel, WorkroomQuerySet

LINE_CHOICES = [(key, line.label) for key, line in LINES.items()]


class Dress(models.TextChoices):
    WOMENS = "women's", "women's dress"
    MENS = "men's", "men's dress"
    CHILDRENS = "children's", "children's dress"


class ReferenceGarmentQuerySet(WorkroomQuerySet):
    def oldest_first(self) -> "ReferenceGarmentQuerySet":
        # Databases differ on which end is undated. What is open at its beginning stands where it ends.
        first_known = Coalesce("date_earliest", "date_latest")
        return self.order_by(first_known.asc(nulls_last=True), "name", "pk")

    def for_list_page(self) -> "ReferenceGarmentQuerySet":
        """Rows of one page with all that its template touches, in one query.

        Only for the few rows of a page: a photograph and a number of plates are sought for each of them.
        """
        itself = self.model._base_manager.filter(pk=models.OuterRef("pk"))
        first_photo = itself.order_by("photos__order", "photos__pk").values("photos__pk")[:1]
        plates = itself.values("pk").annotate(count=models.Count("plates")).values("count")
        return self.annotate(
            card_text=models.F("index_card__text"),
            first_photo=models.Subquery(first_photo),
            plate_count=models.Subquery(plates),
        )

    def for_index(self) -> "ReferenceGarmentQuerySet":
        """Rows with all that their index cards and full-size measures are drawn from."""
        return self.prefetch_related(
            "tags", "citations__source", "plates__pieces__readings", "plates__fastenings"
        )

    def for_detail_page(self) -> "ReferenceGarmentQuerySet":
        cited, stated, plates = (
            self._of(name).select_related("source") for name in ("citations", "published_measures", "plates")
        )
        unknown = models.Count("seams", filter=models.Q(seams__evidence="unknown"))
        plates = plates.annotate(seam_count=models.Count("seams"), unknown_seams=unknown).order_by("pk")
        pieces = plates.model._meta.get_field("pieces").related_model._default_manager.all()
        bearing = Tag.objects.filter(references=models.OuterRef("pk")).order_by().values("references")
        joined = bearing.annotate(joined=JoinedNames("name")).values("joined")
        return (
            self.annotate(joined_tags=models.Subquery(joined))
            .select_related("workroom")
            .prefetch_related(
                "photos",
                models.Prefetch("citations", cited),
                models.Prefetch("published_measures", stated),
                models.Prefetch("plates", plates.with_newest_matrix()),
                models.Prefetch("plates__pieces", pieces.select_related("traced")),
                "plates__pieces__readings",
                "plates__fastenings",
            )
        )

    def _of(self, name: str) -> models.QuerySet:
        """The rows of a part, whose model cannot be imported here: it imports this one."""
        return self.model._meta.get_field(name).related_model._default_manager.all()


class ReferenceGarment(KeyedModel):
    """A garment studied. It survives, or is known from a source."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="references")
    name = models.CharField(max_length=160, help_text="What it is: “front-laced stays”, “sleeved waistcoat”.")
    dress = models.CharField("kind", max_length=12, choices=Dress, default=Dress.WOMENS)
    kind = models.CharField(
        "garment", max_length=80, blank=True, help_text="stays, gown, waistcoat, breeches …"
    )
    date_edtf = models.CharField(
        "date", max_length=60, blank=True, help_text="1785, 1785~ (about), 177X (1770s), 1750/1760."
    )
    date_earliest = models.DateField(null=True, blank=True, editable=False)
    date_latest = models.DateField(null=True, blank=True, editable=False)
    place = models.CharField(max_length=120, blank=True)
    holder = models.CharField("held by", max_length=160, blank=True)
    accession = models.CharField("accession number", max_length=80, blank=True)
    materials = models.TextField(blank=True)
    technique = models.CharField(
        max_length=300, blank=True, help_text="quilted, boned by the piece, felled seams …"
    )
    fastening = models.CharField(
        "fastened by", max_length=200, blank=True, help_text="spiral lacing at the back, hooks and eyes …"
    )
    tags = models.ManyToManyField(Tag, blank=True, related_name="references")
    construction_notes = models.TextField("how it is made", blank=True)
    seam_evidence_note = models.TextField("what is not known", blank=True)

    objects = ReferenceGarmentQuerySet.as_manager()

    class Meta:
        ordering = ("date_earliest", "name", "pk")
        indexes = (
            # With all that the list counts and orders by, so that it need not look at the rows themselves.
            models.Index(
                fields=["workroom", "dress", "kind", "date_earliest", "date_latest"], name="garments_by_kind"
            ),
            models.Index(fields=["workroom", "date_earliest", "date_latest", "name"], name="garments_by_age"),
        )

    def __str__(self) -> str:
        return self.name

    @property
    def tag_names(self) -> list[str]:
        """In order; of a garment from `for_detail_page`."""
        return sorted(self.joined_tags.split(JoinedNames.mark)) if self.joined_tags else []

    def get_absolute_url(self) -> str:
        return reverse("reference-detail", args=[self.pk])


class PublishedMeasure(WorkroomModel):
    """A girth or a length of the garment itself, as its museum or a book states it."""

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(
        ReferenceGarment, on_delete=models.CASCADE, related_name="published_measures"
    )
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    value = LengthColumns("measure")
    doubt = LengthColumns(
        "doubt", null=True, blank=True, help_text="How far it may be off. Left empty: 1/4 in."
    )
    source = models.ForeignKey(Source, null=True, blank=True, on_delete=models.SET_NULL)
    pages = models.CharField("page or figure", max_length=60, blank=True)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.line} {self.value_text}"
