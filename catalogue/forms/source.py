from django import forms

from catalogue.models.source import Source
from catalogue.workroom.forms.as_of import AsOf


class SourceForm(AsOf, forms.ModelForm):
    url = Source._meta.get_field("url").formfield(assume_scheme="https")

    class Meta:
        model = Source
        fields = (
            "kind",
            "title",
            "authors",
            "date",
            "container",
            "editors",
            "volume",
            "issue",
            "pages",
            "edition",
            "publisher",
            "place",
            "identifier",
            "url",
            "accessed_on",
            "rights",
            "notes",
        )
        widgets = {
            "accessed_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }
