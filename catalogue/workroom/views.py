"""Signing in, and how a person likes lengths; the members of a workroom; what was deleted of late."""

from django.contrib import messages
from django.contrib.auth import login, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import PermissionDenied
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.views.decorators.http import require_POST

from catalogue.workroom.actions import (
    CannotComeBack,
    LastKeeper,
    add_member,
    bring_back,
    change_role,
    forget_deleted,
    remove_member,
)
from catalogue.workroom.forms.people import (
    MemberAddForm,
    MemberRoleForm,
    PasswordFirstForm,
    PasswordRenewForm,
    PreferencesForm,
)
from catalogue.workroom.guard import (
    key_of,
    open_for_edit,
    open_for_keeping,
    workroom_for_edit,
    workroom_for_keeping,
    workroom_for_look,
)
from catalogue.workroom.models import Deleted, Member
from catalogue.workroom.sign_in import may_renew, one_time_path, user_of_one_time

# In the session of somebody who came in by a one-time address: they may set a password without the old one.
CAME_IN_ONCE = "came in by a one-time address"
ROWS_A_PAGE = 50


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


def workroom_detail(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    shown = {
        "members": workroom.members.select_related("user").order_by("user__username"),
        "mine": request.user.memberships.select_related("workroom"),
    }
    return render(request, "workroom/workroom_detail.html", shown)


@require_POST
def workroom_switch(request: HttpRequest) -> HttpResponse:
    chosen = key_of(request.POST.get("workroom", ""))
    member = get_object_or_404(request.user.memberships, workroom=chosen)
    request.session["workroom"] = member.workroom_id
    messages.success(request, f"You are in {member.workroom}.")
    return redirect("home")


def member_add(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_keeping(request)
    form = MemberAddForm(request.POST or None, workroom=workroom)
    if form.is_valid():
        member = add_member(
            workroom=workroom, username=form.cleaned_data["username"], role=form.cleaned_data["role"]
        )
        if not form.cleaned_data["is_known"]:
            return _show_address(request, member)
        messages.success(request, f"{member.user} is a member now, and signs in as before.")
        return redirect("workroom-detail")
    return render(request, "workroom/member_add.html", {"form": form})


def member_change(request: HttpRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(workroom_for_keeping(request).members, pk=pk)
    form = MemberRoleForm(request.POST or None, instance=member)
    if form.is_valid():
        try:
            change_role(member=member, role=form.cleaned_data["role"])
        except LastKeeper as fault:
            form.add_error("role", fault.sentence)
        else:
            messages.success(request, f"{member.user} is now {form.cleaned_data['role']}.")
            return redirect("workroom-detail")
    return render(request, "workroom/member_change.html", {"form": form, "changed": member})


def member_remove(request: HttpRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(workroom_for_keeping(request).members.select_related("user"), pk=pk)
    if request.method == "POST":
        try:
            remove_member(member=member)
        except LastKeeper as fault:
            messages.error(request, fault.sentence)
        else:
            messages.success(request, f"{member.user} is no longer a member.")
        return redirect("workroom-detail" if member.user != request.user else "home")
    return render(request, "workroom/member_remove.html", {"leaving": member})


@require_POST
def member_sign_in_address(request: HttpRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(workroom_for_keeping(request).members.select_related("user"), pk=pk)
    if not may_renew(member.user, by=request.user):
        raise PermissionDenied(
            f"{member.user} is also a member of a workroom that you do not keep: an address made here would "
            "open that one too. They can change their password themselves."
        )
    return _show_address(request, member)


def _show_address(request: HttpRequest, member: Member) -> HttpResponse:
    """Shown once, in the answer itself: the address is stored nowhere."""
    shown = {"invited": member, "address": request.build_absolute_uri(one_time_path(member.user))}
    return render(request, "workroom/member_sign_in_address.html", shown)


def deleted_list(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_edit(request)
    rows = Deleted.objects.of_workroom(workroom).for_list_page(timezone.now())
    page = Paginator(rows, ROWS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "workroom/deleted_list.html", {"page": page})


@require_POST
def deleted_restore(request: HttpRequest, pk: int) -> HttpResponse:
    deleted = open_for_edit(Deleted, request, pk)
    try:
        row = bring_back(deleted=deleted)
    except CannotComeBack as fault:
        messages.error(request, fault.sentence)
        return redirect("deleted-list")
    messages.success(request, f"“{deleted}” is back.")
    while not hasattr(row, "get_absolute_url"):
        row = getattr(row, row.workroom_path.split("__")[0])
    return redirect(row)


def deleted_forget(request: HttpRequest, pk: int) -> HttpResponse:
    deleted = open_for_keeping(Deleted, request, pk)
    if request.method == "POST":
        forget_deleted(deleted=deleted)
        messages.success(request, f"“{deleted}” is gone for good.")
        return redirect("deleted-list")
    return render(request, "workroom/deleted_forget.html", {"deleted": deleted})


def tell_deleted(request: HttpRequest, deleted: Deleted) -> None:
    """Say that it is deleted, with the button that brings it back."""
    sentence = format_html(
        '<form method="post" action="{}"><input type="hidden" name="csrfmiddlewaretoken" value="{}">'
        '“{}” is deleted. <button class="small">Bring it back</button></form>',
        reverse("deleted-restore", args=[deleted.pk]),
        get_token(request),
        deleted,
    )
    messages.success(request, sentence)
