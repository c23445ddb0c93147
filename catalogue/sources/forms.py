"""A source typed, and sources read from a file of another program or from pasted text."""

from typing import Any

from django import forms

from catalogue.sources.exchange.bibtex.reading import read_bibtex
from catalogue.sources.exchange.cited_source import CitedSource, SourceFile
from catalogue.sources.exchange.csl import read_csl
from catalogue.sources.models import Source
from catalogue.workroom.forms.as_of import AsOf

MOST_BYTES = 4 * 1024 * 1024
FAULTS_SHOWN = 100


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
            "cite_key",
        )
        widgets = {
            "accessed_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }

    def clean_cite_key(self) -> str:
        key = self.cleaned_data["cite_key"]
        others = Source.objects.filter(workroom=self.instance.workroom).exclude(pk=self.instance.pk)
        if key and (other := others.filter(cite_key=key).first()):
            raise forms.ValidationError(f"“{other}” has this key already: choose another, or leave it empty.")
        return key


class SourceImportForm(forms.Form):
    """A file or pasted text. Which of the two formats it is shows in its first mark."""

    file = forms.FileField(required=False, help_text="A .json of CSL-JSON, or a .bib of BibTeX.")
    text = forms.CharField(
        label="or its text", required=False, strip=False, widget=forms.Textarea(attrs={"rows": 10})
    )

    cited: list[CitedSource]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        text = self._text(cleaned.get("file")) if cleaned.get("file") else cleaned.get("text", "")
        text = text.removeprefix("\ufeff")
        if not text.strip():
            raise forms.ValidationError("Choose a file, or paste its text.")
        read = _read(text)
        if read.faults:
            more = len(read.faults) - FAULTS_SHOWN
            sentences = [str(fault) for fault in read.faults[:FAULTS_SHOWN]]
            raise forms.ValidationError(sentences + ([f"And {more} more."] if more > 0 else []))
        self.cited, cleaned["text"] = read.sources, text
        return cleaned

    def _text(self, file: Any) -> str:
        if file.size > MOST_BYTES:
            raise forms.ValidationError(f"This file is over {MOST_BYTES >> 20} MB: send it in parts.")
        try:
            return file.read().decode("utf-8-sig")
        except UnicodeDecodeError:
            raise forms.ValidationError("This file is not text in UTF-8.") from None


def _read(text: str) -> SourceFile:
    return read_csl(text) if text.lstrip().startswith(("[", "{")) else read_bibtex(text)
