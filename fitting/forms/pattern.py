from django import forms

from fitting.models import PatternInHand


class PatternForm(forms.ModelForm):
    class Meta:
        model = PatternInHand
        fields = ("name", "size", "parts", "notes")
        widgets = {"notes": forms.Textarea(attrs={"rows": 3})}
