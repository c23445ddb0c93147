import re
from collections.abc import Container
from itertools import chain, count
from string import ascii_lowercase
from typing import Any

from django.core.validators import RegexValidator
from django.db import models
from django.urls import reverse

from catalogue.workroom.index.words import fold
from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel, WorkroomQuerySet

# What BibTeX takes for a key, whatever reads the file.
CITE_KEY = re.compile(r"[^\s{}(),\"'#%~\\=@]{1,80}")


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
    identifier = models.CharField(
        max_length=300, blank=True, help_text="ISBN, DOI or accession number; several parted by a semicolon."
    )
    url = models.URLField("address on the web", blank=True, max_length=500)
    accessed_on = models.DateField(
        "looked at on", null=True, blank=True, help_text="Pages of the web change."
    )
    rights = models.CharField(
        max_length=200, blank=True, help_text="What may be done with its pictures and diagrams."
    )
    notes = models.TextField(blank=True)
    cite_key = models.CharField(
        "key for citing",
        max_length=80,
        blank=True,
        validators=[RegexValidator(rf"^{CITE_KEY.pattern}\Z", "No spaces, commas, braces or other marks.")],
        help_text="What your other writing calls it by. Left empty, it is made from the author and the year.",
    )

    objects = SourceQuerySet.as_manager()

    class Meta:
        ordering = ("title", "pk")

    def __str__(self) -> str:
        return self.title

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self.cite_key:
            others = Source.objects.filter(workroom=self.workroom).exclude(pk=self.pk)
            self.cite_key = free_key(readable_key(self), set(others.values_list("cite_key", flat=True)))
        super().save(*args, **kwargs)

    def get_absolute_url(self) -> str:
        return reverse("source-detail", args=[self.pk])

    def keys_of_references(self) -> set[int]:
        """The keys of the garments of which the source says or draws something."""
        said = (self.citations, self.plates, self.answers, self.publishedmeasure_set)
        return {one.reference_id for rows in said for one in rows.all()}


def readable_key(source: Source) -> str:
    """oxleytarn2004: the family name of who comes first, else a word of the title, and the year."""
    family = source.authors.split(";")[0].split(",")[0]
    words = [word for word in fold(source.title) if word not in ("a", "an", "the")]
    name = "".join(fold(family)) or "".join(words[:1])
    year = re.search(r"[0-9]{3}[0-9X]", source.date)
    ascii_only = re.sub(r"[^a-z0-9]", "", name)[:40] or "source"
    return ascii_only + (year[0].lower() if year else "")


def free_key(key: str, taken: Container[str]) -> str:
    """The key, or with the first letter behind it (smith1990b) that nothing else has."""
    numbered = (f"{key}{number}" for number in count(2))
    letters = (f"{key}{letter}" for letter in ascii_lowercase[1:])
    return next(one for one in chain([key], letters, numbered) if one not in taken)


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
