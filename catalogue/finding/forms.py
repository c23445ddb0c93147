from typing import Any

from django import forms
from django.http import QueryDict

from catalogue.finding.models import SavedFilter
from catalogue.workroom.models import Workroom


class SavedFilterForm(forms.ModelForm):
    """A name for the filters in an address. A name taken already gets these in place of the old ones."""

    query = forms.CharField(max_length=1000, widget=forms.HiddenInput)

    class Meta:
        model = SavedFilter
        fields = ("name",)

    def __init__(self, data: QueryDict, *, workroom: Workroom) -> None:
        held = workroom.saved_filters.filter(name=" ".join(data.get("name", "").split())).first()
        super().__init__(data, instance=held or SavedFilter(workroom=workroom))

    def clean_name(self) -> str:
        return " ".join(self.cleaned_data["name"].split())

    def clean_query(self) -> str:
        # Written again by us, so that what is kept can only ever be the query of our own list.
        return QueryDict(self.cleaned_data["query"].lstrip("?")).urlencode()

    def save(self, commit: bool = True) -> Any:
        self.instance.query = self.cleaned_data["query"]
        return super().save(commit)
