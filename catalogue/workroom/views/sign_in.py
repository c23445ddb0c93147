"""Coming in, by password or by a one-time address; a person's password, and how they like lengths."""

from datetime import datetime

from django.contrib import messages
from django.contrib.auth import login, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.views import LoginView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.html import format_html

from catalogue.workroom.actions.custom import is_time_zone, move_workroom
from catalogue.workroom.forms.people import PasswordFirstForm, PasswordRenewForm, PreferencesForm
from catalogue.workroom.guard import CAME_IN_BY, WORKROOM, places_of, settle
from catalogue.workroom.models import Member
from catalogue.workroom.models.one_time import SignInAddress, SignInQuerySet
from catalogue.workroom.showing import how_it_stands
from catalogue.workroom.sign_in import end_sign_in_addresses, spend

ADDRESSES_TOLD, ADDRESSES_LISTED = 3, 10


class SignIn(LoginView):
    template_name = "registration/sign_in.html"

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        answer = super().form_valid(form)
        self.request.session.pop(CAME_IN_BY, None)
        settle(self.request)
        at, news = timezone.now(), _addresses_for(self.request).not_told()
        _tell(self.request, news, at=at)
        news.update(told_at=at)
        return answer


@login_not_required
def sign_in_once(request: HttpRequest, secret: str) -> HttpResponse:
    """A page with one button: a preview of the address by a chat program must not spend it."""
    at = timezone.now()
    address = SignInAddress.objects.opened_by(secret, at=at).select_related("user", "workroom").first()
    if address is None or (request.method == "POST" and not spend(address, at=at)):
        return render(request, "registration/sign_in_spent.html", status=410)
    if request.method != "POST":
        return render(request, "registration/sign_in_once.html", {"address": address})
    login(request, address.user)
    _settle_hours(address, said=request.POST.get("time_zone", ""))
    request.session[CAME_IN_BY], request.session[WORKROOM] = address.pk, address.workroom_id
    if not address.user.has_usable_password():
        ask = '<a href="{}">Set a password</a> to come back without asking for a new address.'
        messages.info(request, format_html(ask, reverse("password-set")))
    # It may not be the person who comes in here: they are told again when they sign in with their password.
    _tell(request, _addresses_for(request).not_told(), at=at)
    return redirect("home")


def _settle_hours(address: SignInAddress, *, said: str) -> None:
    """A workroom that nobody has placed yet is where its keeper's browser is."""
    is_keeper = address.user.memberships.filter(workroom=address.workroom, role=Member.Role.KEEPER).exists()
    if is_keeper and not address.workroom.time_zone and is_time_zone(said):
        move_workroom(address.workroom, time_zone=said)


def _addresses_for(request: HttpRequest) -> SignInQuerySet:
    addresses = request.user.sign_in_addresses.select_related("made_by", "workroom")
    if CAME_IN_BY in request.session:
        return addresses.filter(workroom=request.session[WORKROOM])
    return addresses


def _tell(request: HttpRequest, news: SignInQuerySet, *, at: datetime) -> None:
    sentence = 'On {} {} made an address that signs in as you: {}. <a href="{}">Your account</a>'
    for one in news[:ADDRESSES_TOLD]:
        made_on, state = date_format(one.created_at, "j F Y"), how_it_stands(one, at=at)
        messages.info(request, format_html(sentence, made_on, one.made_by, state, reverse("preferences")))


def password_set(request: HttpRequest) -> HttpResponse:
    """Without the old password for somebody who has none, or came in by a one-time address."""
    may_skip_old = _may_skip_old(request)
    form = (PasswordFirstForm if may_skip_old else PasswordRenewForm)(request.user, request.POST or None)
    if form.is_valid():
        update_session_auth_hash(request, form.save())
        end_sign_in_addresses(request.user, at=timezone.now())
        request.session.pop(CAME_IN_BY, None)
        messages.success(request, "Your password is set: sign in with it from now on.")
        return redirect("home")
    shown = {"form": form, "is_elsewhere_too": CAME_IN_BY in request.session and not may_skip_old}
    return render(request, "workroom/password_set.html", shown)


def _may_skip_old(request: HttpRequest) -> bool:
    """A keeper's address opens one workroom: no password that opens others too can be had by it."""
    if CAME_IN_BY not in request.session:
        return not request.user.has_usable_password()
    address = SignInAddress.objects.filter(pk=request.session[CAME_IN_BY]).first()
    if address is None or not places_of(request).exists():
        return False
    return address.made_by is None or request.user.memberships.count() == 1


def preferences(request: HttpRequest) -> HttpResponse:
    form = PreferencesForm(request.POST or None, instance=request.user)
    if form.is_valid():
        form.save()
        messages.success(request, "Lengths are shown your way from now on.")
        return redirect("preferences")
    at = timezone.now()
    addresses = [(one, how_it_stands(one, at=at)) for one in _addresses_for(request)[:ADDRESSES_LISTED]]
    return render(request, "workroom/preferences.html", {"form": form, "addresses": addresses})
