"""What the list of sources can be narrowed by, from the address line."""

import django_filters
from django.db.models import QuerySet

from catalogue.sources.models import Source
from catalogue.workroom.index.engine import sources_with
from catalogue.workroom.index.words import read_words


class SourceFilter(django_filters.FilterSet):
    text = django_filters.CharFilter(label="Words", method="with_text")
    kind = django_filters.ChoiceFilter(choices=Source.Kind, empty_label="any kind")

    class Meta:
        model = Source
        fields = ()

    def with_text(self, rows: QuerySet, name: str, text: str) -> QuerySet:
        words = read_words(text)
        return rows.filter(pk__in=sources_with(words, rows.db)) if words else rows.none()
