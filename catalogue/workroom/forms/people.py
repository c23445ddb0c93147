"""A person's password and how they like lengths; a member added to a workroom, and what they may do there."""

from typing import Any

from django import forms
from django.contrib.auth.forms import PasswordChangeForm, SetPasswordForm
from django.contrib.auth.validators import UnicodeUsernameValidator

from catalogue.workroom.models import Member, User, Workroom


class _SaysWhatIsAsked:
    """Django's own help is a list of rules; one sentence does."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields[
            "new_password1"
        ].help_text = "Ten characters or more; several words are easy to remember and hard to guess."
        self.fields["new_password2"].label = "The same again"
        self.fields["new_password2"].help_text = ""


class PasswordFirstForm(_SaysWhatIsAsked, SetPasswordForm):
    """For somebody who has no password, or has forgotten it and came in by a one-time address."""


class PasswordRenewForm(_SaysWhatIsAsked, PasswordChangeForm):
    """Asks for the old password first."""


class PreferencesForm(forms.ModelForm):
    class Meta:
        model = User
        fields = ("system", "denominator")
        widgets = {"system": forms.RadioSelect, "denominator": forms.RadioSelect}
        help_texts = {
            "system": "How lengths are shown to you, and what a number typed without a unit means.",
        }


class MemberAddForm(forms.Form):
    username = forms.CharField(
        label="User name",
        max_length=150,
        validators=[UnicodeUsernameValidator()],
        help_text="What they will sign in with.",
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "none"}),
    )
    role = forms.ChoiceField(choices=Member.Role, initial=Member.Role.MAKER, widget=forms.RadioSelect)
    is_known = forms.BooleanField(
        label="This person signs in here already",
        required=False,
        help_text="For a member of another workroom on this machine.",
    )

    def __init__(self, *args: Any, workroom: Workroom, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.workroom = workroom

    def clean(self) -> dict[str, Any]:
        # A name that is taken may be somebody else's: measures are not shown to them by a slip.
        cleaned = super().clean()
        user = User.objects.filter(username=cleaned.get("username")).first()
        if user and self.workroom.members.filter(user=user).exists():
            self.add_error("username", f"“{user.username}” is a member already.")
        elif user and not cleaned["is_known"]:
            self.add_error(
                "username",
                f"“{user.username}” is taken. If it is the same person, tick the box below; "
                "if not, choose another name.",
            )
        elif cleaned["is_known"] and "username" in cleaned and not user:
            self.add_error("is_known", f"Nobody signs in here as “{cleaned['username']}”.")
        return cleaned


class MemberRoleForm(forms.ModelForm):
    class Meta:
        model = Member
        fields = ("role",)
        widgets = {"role": forms.RadioSelect}
