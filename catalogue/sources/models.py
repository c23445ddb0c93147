from django.db import models
from django.urls import reverse

from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel, WorkroomQuerySet


class SourceQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "SourceQuerySet":
        """Rows with all that the list template touches: the same number of queries at any length."""
        counted = self.annotate(citation_count=models.Count("citations__reference", distinct=True))
        # Counting drops the model's own order.
        return counted.order_by("title", "pk")

    def for_detail_page(self) -> "SourceQuerySet":
        return self.prefetch_related(
            *(f"{what}__reference" for what in ("citations", "plates", "photos", "answers")),
            "publishedmeasure_set__reference",
        )


class Source(KeyedModel):
    """Where knowledge comes from."""

    class Kind(models.TextChoices):
        BOOK = "book", "book"
        CHAPTER = "chapter", "chapter"
        ARTICLE = "article", "article"
        MUSEUM_RECORD = "museum record", "museum record"
        TRADE_MANUAL = "trade manual", "trade manual"
        FASHION_PLATE = "fashion plate", "fashion plate"
        PAINTING = "painting", "painting"
        WEB_PAGE = "web page", "web page"
        MANUSCRIPT = "manuscript", "manuscript"
        OWN_STUDY = "own study", "own study of an object"

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="sources")
    kind = models.CharField(max_length=20, choices=Kind, default=Kind.BOOK)
    title = models.CharField(max_length=300)
    authors = models.CharField(
        max_length=300, blank=True, help_text="Family name, given name; several parted by a semicolon."
    )
    date = models.CharField(max_length=60, blank=True, help_text="When it was published or made.")
    container = models.CharField(
        "published in", max_length=300, blank=True, help_text="The journal, or the book of a chapter."
    )
    editors = models.CharField(max_length=300, blank=True, help_text="Of the book or journal, as authors.")
    volume = models.CharField(max_length=40, blank=True)
    issue = models.CharField(max_length=40, blank=True)
    pages = models.CharField(max_length=60, blank=True, help_text="First and last, of a chapter or article.")
    edition = models.CharField(max_length=60, blank=True, help_text="2, or “revised”.")
    publisher = models.CharField("publisher or holder", max_length=200, blank=True)
    place = models.CharField(max_length=120, blank=True)
    identifier = models.CharField(max_length=120, blank=True, help_text="ISBN, DOI or accession number.")
    url = models.URLField("address on the web", blank=True, max_length=500)
    accessed_on = models.DateField(
        "looked at on", null=True, blank=True, help_text="Pages of the web change."
    )
    rights = models.CharField(
        max_length=200, blank=True, help_text="What may be done with its pictures and diagrams."
    )
    notes = models.TextField(blank=True)

    objects = SourceQuerySet.as_manager()

    class Meta:
        ordering = ("title", "pk")

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("source-detail", args=[self.pk])

    def keys_of_references(self) -> set[int]:
        """Of the garments that something is said of, or drawn, in it."""
        said = (self.citations, self.plates, self.answers, self.publishedmeasure_set)
        return {one.reference_id for rows in said for one in rows.all()}


class Citation(WorkroomModel):
    """A fact about a reference garment, and the page of the source that says it."""

    workroom_path = "reference__workroom"

    reference = models.ForeignKey(
        "catalogue.ReferenceGarment", on_delete=models.CASCADE, related_name="citations"
    )
    source = models.ForeignKey(Source, on_delete=models.PROTECT, related_name="citations")
    pages = models.CharField(max_length=60, blank=True)
    fact = models.CharField("what it says", max_length=300, blank=True)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.source}, {self.pages}" if self.pages else str(self.source)
