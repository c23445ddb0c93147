"""What the list of reference garments can be narrowed by: all of it stands in the address."""

from collections.abc import Mapping
from typing import Any

import django_filters
from django import forms
from django.db.models import Exists, OuterRef, Q, QuerySet
from django.utils.functional import cached_property

from catalogue.finding.models import FullSizeMeasure
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import LengthField
from catalogue.photographs.models import Photo
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import Dress, ReferenceGarment
from catalogue.workroom.index.engine import references_by_rank, references_with
from catalogue.workroom.index.words import read_words
from catalogue.workroom.models import User, Workroom
from catalogue.workroom.uses import is_used

LINE_CHOICES = [(key, line.label) for key, line in LINES.items()]
WITH_OR_WITHOUT = [("yes", "with"), ("no", "without")]
# Those that stand in sight; the others are folded away until one of them is used.
FIRST_SHOWN = ("text", "dress", "kind", "year_from", "year_to")


class LengthFilter(django_filters.Filter):
    """A length as the person types it; it narrows nothing by itself."""

    @cached_property
    def field(self) -> forms.Field:
        field = LengthField(self.label, blank=True).formfield(label=self.label)
        field.required = False
        return field

    def filter(self, rows: QuerySet, value: Any) -> QuerySet:
        return rows


class ReferenceFilterForm(forms.Form):
    def clean(self) -> dict[str, Any]:
        typed = super().clean()
        if (typed.get("girth_from") or typed.get("girth_to")) and not typed.get("line"):
            self.add_error("line", "Choose the level or length that the measure is taken at.")
        years = (typed.get("year_from"), typed.get("year_to"))
        if all(years) and years[0] > years[1]:
            self.add_error("year_to", "This year is before the other one.")
        ends = (typed.get("girth_from"), typed.get("girth_to"))
        if all(ends) and ends[0].um > ends[1].um:
            self.add_error("girth_to", "This length is less than the other one.")
        return typed


class ReferenceFilter(django_filters.FilterSet):
    """A garment dated 1780/1790 is found by any year of the ten: its years need only touch those asked."""

    text = django_filters.CharFilter(label="Words", method="with_text")
    dress = django_filters.ChoiceFilter(label="Kind", choices=Dress, empty_label="any kind")
    kind = django_filters.CharFilter(label="Garment", widget=forms.Select)
    year_from = django_filters.NumberFilter(
        label="From the year", method="not_before", min_value=1, max_value=9999
    )
    year_to = django_filters.NumberFilter(
        label="To the year", method="not_after", min_value=1, max_value=9999
    )
    place = django_filters.CharFilter(label="Place", method="with_words_in")
    materials = django_filters.CharFilter(label="Material", method="with_words_in")
    technique = django_filters.CharFilter(label="Technique", method="with_words_in")
    fastening = django_filters.CharFilter(label="Fastened by", method="with_words_in")
    tag = django_filters.CharFilter(label="Tag", field_name="tags__name", widget=forms.Select)
    line = django_filters.ChoiceFilter(
        label="Level or length", choices=LINE_CHOICES, empty_label="any", method="as_measured"
    )
    girth_from = LengthFilter(label="Measuring from")
    girth_to = LengthFilter(label="Measuring to")
    plates = django_filters.ChoiceFilter(label="Plates", choices=WITH_OR_WITHOUT, method="has")
    drafts = django_filters.ChoiceFilter(label="Proportional drafts", choices=WITH_OR_WITHOUT, method="has")
    readings = django_filters.ChoiceFilter(label="Readings", choices=WITH_OR_WITHOUT, method="has")
    photos = django_filters.ChoiceFilter(label="Photographs", choices=WITH_OR_WITHOUT, method="has")
    used = django_filters.ChoiceFilter(label="Used in an outfit", choices=WITH_OR_WITHOUT, method="has")

    class Meta:
        model = ReferenceGarment
        fields = ()
        form = ReferenceFilterForm

    def __init__(self, data: Mapping[str, str], *, workroom: Workroom, user: User) -> None:
        super().__init__(data, ReferenceGarment.objects.of_workroom(workroom))
        self.workroom = workroom
        for name in ("girth_from", "girth_to"):
            field = self.form.fields[name]
            field.unit = user.system
            field.widget.attrs["placeholder"] = user.system

    @cached_property
    def words(self) -> tuple[str, ...]:
        return read_words(self.data.get("text", ""))

    @property
    def in_use(self) -> list[str]:
        """The names of the filters that narrow the list."""
        self.form.is_valid()
        return [name for name in self.filters if self.form.cleaned_data.get(name) not in (None, "")]

    @property
    def is_unfolded(self) -> bool:
        return bool({*self.in_use, *self.form.errors} - {*FIRST_SHOWN})

    def first_fields(self) -> list[forms.BoundField]:
        return [self.form[name] for name in FIRST_SHOWN]

    def more_fields(self) -> list[forms.BoundField]:
        return [field for field in self.form if field.name not in FIRST_SHOWN]

    def without(self, *names: str) -> QuerySet:
        """The garments that all filters but these find. One that was not understood narrows nothing."""
        rows = self.queryset
        for name in self.in_use:
            if name not in names:
                rows = self.filters[name].filter(rows, self.form.cleaned_data[name])
        return rows

    def filter_queryset(self, queryset: QuerySet) -> QuerySet:
        return self.without()

    def keys(self, *, by_age: bool = False) -> QuerySet | list[int]:
        """The keys of what is found: best first where there are words, else the oldest first."""
        if self.words and not by_age:
            return references_by_rank(self.qs, self.words)
        keys = self.qs.oldest_first().values_list("pk", flat=True)
        # To look for all of them once is quicker than to count them and then look for a page of them.
        return list(keys) if self.in_use else keys

    def with_text(self, rows: QuerySet, name: str, text: str) -> QuerySet:
        return rows.filter(pk__in=references_with(self.words, rows.db)) if self.words else rows.none()

    def with_words_in(self, rows: QuerySet, column: str, text: str) -> QuerySet:
        """Garments on whose index card, in that column, every word typed begins some word."""
        words = read_words(text)
        return rows.filter(pk__in=references_with(words, rows.db, column=column)) if words else rows.none()

    def not_before(self, rows: QuerySet, name: str, year: int) -> QuerySet:
        # A date without a latest day is open at that end; one without either is none.
        is_open = Q(date_latest=None, date_earliest__isnull=False)
        return rows.filter(Q(date_latest__gte=f"{int(year):04}-01-01") | is_open)

    def not_after(self, rows: QuerySet, name: str, year: int) -> QuerySet:
        is_open = Q(date_earliest=None, date_latest__isnull=False)
        return rows.filter(Q(date_earliest__lte=f"{int(year):04}-12-31") | is_open)

    def as_measured(self, rows: QuerySet, name: str, line: str) -> QuerySet:
        """Garments read at that level; where ends are typed, those whose measure may lie between."""
        measures = FullSizeMeasure.objects.filter(line=line)
        if least := self.form.cleaned_data.get("girth_from"):
            measures = measures.filter(most_um__gte=least.um)
        if most := self.form.cleaned_data.get("girth_to"):
            measures = measures.filter(least_um__lte=most.um)
        return rows.filter(pk__in=measures.values("reference"))

    def has(self, rows: QuerySet, name: str, answer: str) -> QuerySet:
        return rows.filter(has(name) if answer == "yes" else ~has(name))


def has(what: str) -> Q:
    """What filters reference garments to those with plates, drafts, readings, photographs, or a use."""
    if what == "used":
        return is_used()
    if what == "drafts":
        return Q(Exists(Plate.objects.filter(reference=OuterRef("pk"), kind=Plate.Kind.DRAFT)))
    model = {"plates": Plate, "readings": FullSizeMeasure, "photos": Photo}[what]
    return Q(Exists(model.objects.filter(reference=OuterRef("pk"))))
