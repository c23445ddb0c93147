from django import forms

from fitting.models.pattern import PatternChange, PatternInHand


class PatternForm(forms.ModelForm):
    class Meta:
        model = PatternInHand
        fields = ("name", "size", "parts", "notes")
        widgets = {"notes": forms.Textarea(attrs={"rows": 3})}


class PatternChangeForm(forms.ModelForm):
    class Meta:
        model = PatternChange
        fields = ("changed_on", "part", "what")
        widgets = {
            "changed_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "what": forms.Textarea(attrs={"rows": 2}),
        }
