"""A keeper invites and withdraws; whoever opens the address answers, signed in as ever or new here.

When an address is opened, the session keeps which invitation it is: no page after that has the secret in its
address.
"""

from django.contrib import messages
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.views.decorators.http import require_POST, require_safe

from catalogue.workroom.actions.members import (
    InvitationEnded,
    accept_invitation,
    decline_invitation,
    invite,
    withdraw_invitation,
)
from catalogue.workroom.forms.people import InvitationForm, JoinForm
from catalogue.workroom.guard import CAME_IN_BY, INVITATION, open_for_keeping, settle, workroom_for_keeping
from catalogue.workroom.models.one_time import Invitation


def invitation_add(request: HttpRequest) -> HttpResponse:
    """The address is shown once, in the answer itself."""
    invitation = Invitation(workroom=workroom_for_keeping(request), made_by=request.user)
    form = InvitationForm(request.POST or None, instance=invitation)
    if form.is_valid():
        secret = invite(invitation, at=timezone.now())
        address = request.build_absolute_uri(reverse("invitation-open", args=[secret]))
        shown = {"invitation": invitation, "address": address}
        return render(request, "workroom/invitation_address.html", shown)
    return render(request, "workroom/invitation_add.html", {"form": form})


@require_POST
def invitation_withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    invitation = open_for_keeping(Invitation, request, pk)
    try:
        withdraw_invitation(invitation=invitation, at=timezone.now())
    except InvitationEnded:
        messages.error(request, f"{invitation.name} has answered already, or the time has run out.")
    else:
        messages.success(request, f"{invitation.name} is no longer invited: the address opens nothing.")
    return redirect("workroom-detail")


@login_not_required
@require_safe
def invitation_open(request: HttpRequest, secret: str) -> HttpResponse:
    """Looking does not answer it: a preview of the address by a chat program changes nothing."""
    invitation = Invitation.objects.opened_by(secret, at=timezone.now()).first()
    if invitation is None:
        return _ended(request)
    request.session[INVITATION] = invitation.pk
    return redirect("invitation-answer")


@login_not_required
def invitation_answer(request: HttpRequest) -> HttpResponse:
    invitation = _opened(request)
    if invitation is None:
        return _ended(request) if request.session.pop(INVITATION, None) else redirect("home")
    is_signed_in = request.user.is_authenticated
    place = invitation.workroom.members.filter(user=request.user).first() if is_signed_in else None
    may_answer = is_signed_in and place is None and CAME_IN_BY not in request.session
    if request.method == "POST" and may_answer:
        return _answer(request, invitation)
    shown = {"invitation": invitation, "place": place, "may_answer": may_answer}
    return render(request, "workroom/invitation_answer.html", shown)


def _answer(request: HttpRequest, invitation: Invitation) -> HttpResponse:
    settle(request)
    stays_in = request.member.workroom if request.member else None
    try:
        if "accept" in request.POST:
            accept_invitation(invitation=invitation, user=request.user, at=timezone.now())
        else:
            decline_invitation(invitation=invitation, at=timezone.now())
    except InvitationEnded:
        return _ended(request)
    del request.session[INVITATION]
    if "accept" not in request.POST:
        messages.success(request, f"Declined: you are no member of {invitation.workroom}.")
    elif stays_in:
        sentence = 'You are a member of {} now. You are still in {}: <a href="{}">change workroom</a>.'
        choose = reverse("workroom-choose")
        messages.success(request, format_html(sentence, invitation.workroom, stays_in, choose))
    else:
        settle(request)
        messages.success(request, f"You are a member of {invitation.workroom} now.")
    return redirect("home")


@login_not_required
def invitation_join(request: HttpRequest) -> HttpResponse:
    """For somebody new: to make a sign-in name here is to accept."""
    invitation = _opened(request)
    if invitation is None or request.user.is_authenticated:
        return redirect("invitation-answer")
    form = JoinForm(request.POST or None, invitation=invitation)
    if form.is_valid():
        try:
            member = accept_invitation(invitation=invitation, user=form.new_user(), at=timezone.now())
        except InvitationEnded:
            return _ended(request)
        del request.session[INVITATION]
        login(request, member.user)
        settle(request)
        messages.success(request, f"You are a member now. You sign in as {member.user.username}.")
        return redirect("home")
    return render(request, "workroom/invitation_join.html", {"invitation": invitation, "form": form})


def _opened(request: HttpRequest) -> Invitation | None:
    waiting = Invitation.objects.still_open(timezone.now()).select_related("workroom", "made_by")
    return waiting.filter(pk=request.session.get(INVITATION)).first()


def _ended(request: HttpRequest) -> HttpResponse:
    return render(request, "workroom/invitation_ended.html", status=410)
