"""The members of a workroom."""

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST

from catalogue.workroom.actions.members import LastKeeper, add_member, change_role, remove_member
from catalogue.workroom.forms.people import MemberAddForm, MemberRoleForm
from catalogue.workroom.guard import key_of, workroom_for_keeping, workroom_for_look
from catalogue.workroom.models import Member
from catalogue.workroom.sign_in import may_renew, one_time_path


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
