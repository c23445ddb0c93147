"""The members of a workroom; which workroom a person works in, and leaving one."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from catalogue.workroom.actions.custom import move_workroom
from catalogue.workroom.actions.members import LastKeeper, change_role, remove_member
from catalogue.workroom.forms.people import MemberRoleForm, WorkroomForm
from catalogue.workroom.guard import WORKROOM, key_of, places_of, workroom_for_keeping, workroom_for_look
from catalogue.workroom.sign_in import make_sign_in_address


def workroom_detail(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    shown = {
        "members": workroom.members.select_related("user").order_by("user__username"),
        "places": places_of(request),
    }
    if request.member.is_keeper:
        shown |= {"invitations": workroom.invitations.for_keepers(timezone.now()), "now": timezone.now()}
    return render(request, "workroom/workroom_detail.html", shown)


def workroom_change(request: HttpRequest) -> HttpResponse:
    """Change where the workroom is, which gives its hours, and its money."""
    workroom = workroom_for_keeping(request)
    form = WorkroomForm(request.POST or None, instance=workroom)
    if form.is_valid():
        # What was noted by the clock until now is read by the zone that it was typed in.
        workroom.refresh_from_db(fields=["time_zone"])
        workroom.save(update_fields=["currency"])
        move_workroom(workroom, time_zone=form.cleaned_data["time_zone"])
        messages.success(request, "Hours and money are shown that way from now on.")
        return redirect("workroom-detail")
    return render(request, "workroom/workroom_change.html", {"form": form})


def workroom_choose(request: HttpRequest) -> HttpResponse:
    """Ask somebody who is in several workrooms which one to work in now."""
    places = places_of(request)
    back = request.POST.get("next") or request.GET.get("next") or ""
    if request.method == "POST":
        chosen = get_object_or_404(places, workroom=key_of(request.POST.get("workroom", "")))
        request.session[WORKROOM] = chosen.workroom_id
        messages.success(request, f"You are in {chosen.workroom}.")
        is_ours = url_has_allowed_host_and_scheme(back, {request.get_host()}, request.is_secure())
        return redirect(back if is_ours else "home")
    if not places.exists():
        return redirect("home")
    has_lost_place = WORKROOM in request.session and not request.member
    shown = {"places": places, "back": back, "has_lost_place": has_lost_place}
    return render(request, "workroom/workroom_choose.html", shown)


def workroom_leave(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    if request.method == "POST":
        try:
            remove_member(member=request.member, at=timezone.now())
        except LastKeeper as fault:
            messages.error(request, fault.sentence)
            return redirect("workroom-leave")
        messages.success(request, f"You have left {workroom}.")
        return redirect("home")
    why_not = LastKeeper.sentence if request.member.is_last_keeper else ""
    return render(request, "workroom/workroom_leave.html", {"why_not": why_not})


def member_change(request: HttpRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(workroom_for_keeping(request).members, pk=pk)
    form = MemberRoleForm(request.POST or None, instance=member)
    if form.is_valid():
        try:
            change_role(member=member, role=form.cleaned_data["role"], at=timezone.now())
        except LastKeeper as fault:
            form.add_error("role", fault.sentence)
        else:
            messages.success(request, f"{member.user} is now {form.cleaned_data['role']}.")
            return redirect("workroom-detail")
    return render(request, "workroom/member_change.html", {"form": form, "changed": member})


def member_remove(request: HttpRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(workroom_for_keeping(request).members.select_related("user"), pk=pk)
    if member.user == request.user:
        return redirect("workroom-leave")
    if request.method == "POST":
        try:
            remove_member(member=member, at=timezone.now())
        except LastKeeper as fault:
            # Two keepers were removing each other.
            messages.error(request, fault.sentence)
        else:
            messages.success(request, f"{member.user} is no longer a member.")
        return redirect("workroom-detail")
    return render(request, "workroom/member_remove.html", {"leaving": member})


@require_POST
def member_sign_in_address(request: HttpRequest, pk: int) -> HttpResponse:
    """Shown once, in the answer itself: the address is stored nowhere."""
    member = get_object_or_404(workroom_for_keeping(request).members.select_related("user"), pk=pk)
    path = make_sign_in_address(member=member, by=request.user, at=timezone.now())
    shown = {"member_let_in": member, "address": request.build_absolute_uri(path)}
    return render(request, "workroom/member_sign_in_address.html", shown)
