"""A person's password, and lengths; an invitation, and what a member may do; a workroom's hours and money."""

from collections.abc import Iterator
from typing import Any

from django import forms
from django.contrib.auth.forms import PasswordChangeForm, SetPasswordForm
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.utils.text import slugify

from catalogue.workroom.actions.custom import time_zones
from catalogue.workroom.models import Member, User, Workroom
from catalogue.workroom.models.one_time import Invitation


class _PasswordHelp:
    """Django's own help is a list of rules; one sentence does."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields[
            "new_password1"
        ].help_text = "Ten characters or more; several words are easy to remember and hard to guess."
        self.fields["new_password2"].label = "The same again"
        self.fields["new_password2"].help_text = ""


class PasswordFirstForm(_PasswordHelp, SetPasswordForm):
    """For somebody who has no password, or has forgotten it and came in by a one-time address."""


class PasswordRenewForm(_PasswordHelp, PasswordChangeForm):
    """Asks for the old password first."""


class PreferencesForm(forms.ModelForm):
    class Meta:
        model = User
        fields = ("system", "denominator")
        widgets = {"system": forms.RadioSelect, "denominator": forms.RadioSelect}
        help_texts = {
            "system": "How lengths are shown to you, and what a number typed without a unit means.",
        }


class InvitationForm(forms.ModelForm):
    class Meta:
        model = Invitation
        fields = ("name", "role")
        widgets = {"name": forms.TextInput(attrs={"autocomplete": "off"}), "role": forms.RadioSelect}
        labels = {"name": "Whom do you invite?"}
        help_texts = {"name": "To tell your invitations apart. It need not be the name they sign in with."}


class JoinForm(_PasswordHelp, SetPasswordForm):
    """Somebody new makes the name and the password that they will sign in with.

    No two people of the installation have the same sign-in name. To refuse one that is taken would tell
    whoever holds an invitation who else signs in here: so each has a number, and the name ends with it.
    """

    field_order = ("name", "username", "new_password1", "new_password2")
    name = forms.CharField(label="Your name", max_length=150, help_text="As the others will see it.")
    username = forms.CharField(
        label="Sign-in name",
        max_length=150,
        validators=[UnicodeUsernameValidator()],
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
    )

    def __init__(self, *args: Any, invitation: Invitation, **kwargs: Any) -> None:
        self.ending = f"-{invitation.number}"
        first = f"{slugify(invitation.name)[:40] or 'maker'}{self.ending}"
        super().__init__(User(), *args, initial={"name": invitation.name, "username": first}, **kwargs)
        self.fields["new_password1"].label = "Password"
        help_text = (
            f"Change it as you like, but leave {self.ending} at its end: it makes the name yours alone."
        )
        self.fields["username"].help_text = help_text

    def clean_username(self) -> str:
        username = self.cleaned_data["username"]
        if not username.removesuffix(self.ending) or not username.endswith(self.ending):
            raise forms.ValidationError(f"Leave {self.ending} at the end of your sign-in name.")
        if User.objects.filter(username=username).exists():
            raise forms.ValidationError("Choose another beginning for your sign-in name.")
        return username

    def new_user(self) -> User:
        """The person, not saved yet."""
        self.user.username, self.user.first_name = self.cleaned_data["username"], self.cleaned_data["name"]
        return self.save(commit=False)


class MemberRoleForm(forms.ModelForm):
    class Meta:
        model = Member
        fields = ("role",)
        widgets = {"role": forms.RadioSelect}


def _zones_offered() -> Iterator[tuple[str, Any]]:
    yield "", "choose"
    yield "UTC", "UTC"
    for region, names in time_zones().items():
        yield region, [(name, _place_of(name)) for name in names]


def _place_of(name: str) -> str:
    """America/Indiana/Knox → Indiana, Knox."""
    return name.partition("/")[2].replace("/", ", ").replace("_", " ")


class WorkroomForm(forms.ModelForm):
    """By whose clock, and in what money."""

    time_zone = forms.ChoiceField(
        label="Time zone",
        choices=_zones_offered,
        widget=forms.Select(attrs={"data-time-zone": True}),
        help_text="Hours are typed and shown by this clock. A fitting noted for noon stays at noon.",
    )

    class Meta:
        model = Workroom
        fields = ("time_zone", "currency")
