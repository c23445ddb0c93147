"""What the list pages can be narrowed by, from the address line."""

import django_filters
from django.db.models import Q, QuerySet

from catalogue.models import ReferenceGarment, Source
from catalogue.models.garment import Dress


class SourceFilter(django_filters.FilterSet):
    text = django_filters.CharFilter(label="Title or author", method="with_text")
    kind = django_filters.ChoiceFilter(choices=Source.Kind, empty_label="any kind")

    class Meta:
        model = Source
        fields = ()

    def with_text(self, rows: QuerySet, name: str, text: str) -> QuerySet:
        return rows.filter(Q(title__icontains=text) | Q(authors__icontains=text))


class ReferenceFilter(django_filters.FilterSet):
    """A garment dated 1780/1790 is found by any year of the ten: its years need only touch those asked."""

    text = django_filters.CharFilter(label="Words", method="with_text")
    dress = django_filters.ChoiceFilter(label="Kind", choices=Dress, empty_label="any kind")
    year_from = django_filters.NumberFilter(
        label="From the year", method="not_before", min_value=1, max_value=9999
    )
    year_to = django_filters.NumberFilter(
        label="To the year", method="not_after", min_value=1, max_value=9999
    )
    place = django_filters.CharFilter(label="Place", lookup_expr="icontains")

    class Meta:
        model = ReferenceGarment
        fields = ()

    def with_text(self, rows: QuerySet, name: str, text: str) -> QuerySet:
        columns = ("name", "kind", "holder", "accession", "materials", "construction_notes")
        for word in text.split():
            anywhere = Q()
            for column in columns:
                anywhere |= Q(**{f"{column}__icontains": word})
            rows = rows.filter(anywhere)
        return rows

    def not_before(self, rows: QuerySet, name: str, year: int) -> QuerySet:
        # A date without a latest day is open at that end.
        return rows.exclude(date_edtf="").filter(
            Q(date_latest__gte=f"{int(year):04}-01-01") | Q(date_latest=None)
        )

    def not_after(self, rows: QuerySet, name: str, year: int) -> QuerySet:
        return rows.exclude(date_edtf="").filter(
            Q(date_earliest__lte=f"{int(year):04}-12-31") | Q(date_earliest=None)
        )
