from typing import Any

from django import forms

from catalogue.workroom.models import Member, User
from fitting.models.outfit import Outfit
from fitting.wearers.models import Wearer


class OutfitForm(forms.ModelForm):
    class Meta:
        model = Outfit
        fields = (
            "name", "wearer", "maker", "occasion", "occasion_on", "hours_a_week", "budget", "currency",
            "notes",
        )  # fmt: skip
        widgets = {
            "occasion_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "hours_a_week": forms.NumberInput(attrs={"step": "0.5", "min": "0", "inputmode": "decimal"}),
            "budget": forms.NumberInput(attrs={"step": "0.01", "min": "0", "inputmode": "decimal"}),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        workroom = self.instance.workroom
        self.fields["wearer"].queryset = Wearer.objects.of_workroom(workroom)
        self.fields["wearer"].empty_label = "not yet known"
        self.fields["maker"].queryset = User.objects.filter(
            memberships__workroom=workroom, memberships__role__in=(Member.Role.KEEPER, Member.Role.MAKER)
        )
        self.fields["maker"].empty_label = "whoever compares"
        self.fields["maker"].help_text = "Whose limits, skills and hours judge the routes."
