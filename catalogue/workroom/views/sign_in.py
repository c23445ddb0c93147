"""Coming in by a one-time address; a password of one's own, and how a person likes lengths."""

from django.contrib import messages
from django.contrib.auth import login, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.html import format_html

from catalogue.workroom.forms.people import PasswordFirstForm, PasswordRenewForm, PreferencesForm
from catalogue.workroom.sign_in import user_of_one_time

# In the session of somebody who came in by a one-time address: they may set a password without the old one.
CAME_IN_ONCE = "came in by a one-time address"


@login_not_required
def sign_in_once(request: HttpRequest, uid: str, token: str) -> HttpResponse:
    """A page with one button: a preview of the address by a chat program must not spend it."""
    user = user_of_one_time(uid, token)
    if user is None:
        return render(request, "registration/sign_in_spent.html", status=410)
    if request.method == "POST":
        login(request, user)
        request.session[CAME_IN_ONCE] = True
        if not user.has_usable_password():
            ask = '<a href="{}">Set a password</a> to come back without asking for a new address.'
            messages.info(request, format_html(ask, reverse("password-set")))
        return redirect("home")
    return render(request, "registration/sign_in_once.html", {"person": user})


def password_set(request: HttpRequest) -> HttpResponse:
    """Without the old password only for somebody who came in by a one-time address, or has none yet."""
    may_skip_old = CAME_IN_ONCE in request.session or not request.user.has_usable_password()
    form = (PasswordFirstForm if may_skip_old else PasswordRenewForm)(request.user, request.POST or None)
    if form.is_valid():
        update_session_auth_hash(request, form.save())
        request.session.pop(CAME_IN_ONCE, None)
        messages.success(request, "Your password is set: sign in with it from now on.")
        return redirect("home")
    return render(request, "workroom/password_set.html", {"form": form})


def preferences(request: HttpRequest) -> HttpResponse:
    form = PreferencesForm(request.POST or None, instance=request.user)
    if form.is_valid():
        form.save()
        messages.success(request, "Lengths are shown your way from now on.")
        return redirect("preferences")
    return render(request, "workroom/preferences.html", {"form": form})
