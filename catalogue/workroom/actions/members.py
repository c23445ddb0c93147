"""People are invited into a workroom and join it; members change and leave.

Nobody is made a member by another: an invitation is an address that is handed over, and whoever opens it
answers. So a keeper never says who it is for in a way that could be looked up, and never learns who signs in
here.
"""

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Q

from catalogue.workroom.models import Member, User, Workroom
from catalogue.workroom.models.one_time import Invitation, SignInAddress, digest_of
from catalogue.workroom.sign_in import new_secret

INVITATION_LASTS = timedelta(days=7)


class LastKeeper(Exception):
    """The change would leave a workroom that nobody keeps."""

    sentence = (
        "The workroom would have no keeper. Make another member keeper first, or invite somebody as one."
    )


class InvitationEnded(Exception):
    """It was answered or withdrawn meanwhile, or its time has run out."""


@transaction.atomic
def found_workroom(*, name: str, keeper: User) -> Workroom:
    """Make a workroom with its first keeper."""
    workroom = Workroom.objects.create(name=name)
    Member.objects.create(workroom=workroom, user=keeper, role=Member.Role.KEEPER)
    return workroom


@transaction.atomic
def invite(invitation: Invitation, *, at: datetime) -> str:
    """Save it and return its secret, which is not kept and cannot be shown again."""
    invitation.workroom.invitations.past_keeping(at).delete()
    secret = new_secret()
    invitation.digest, invitation.expires_at = digest_of(secret), at + INVITATION_LASTS
    invitation.save()
    return secret


@transaction.atomic
def accept_invitation(*, invitation: Invitation, user: User, at: datetime) -> Member:
    """Make the person a member; `user` may be new, and not saved yet. Raises InvitationEnded."""
    _answer(invitation, at=at)
    if user.pk is None:
        user.save()
    member, _ = Member.objects.get_or_create(
        workroom=invitation.workroom, user=user, defaults={"role": invitation.role}
    )
    return member


def decline_invitation(*, invitation: Invitation, at: datetime) -> None:
    """Raises InvitationEnded."""
    _answer(invitation, at=at, is_declined=True)


def _answer(invitation: Invitation, *, at: datetime, is_declined: bool = False) -> None:
    # Two may have opened the same address: the first to answer has it.
    waiting = Invitation.objects.still_open(at).filter(pk=invitation.pk)
    if not waiting.update(ended_at=at, is_declined=is_declined):
        raise InvitationEnded


def withdraw_invitation(*, invitation: Invitation, at: datetime) -> None:
    """Raises InvitationEnded."""
    if not Invitation.objects.still_open(at).filter(pk=invitation.pk).delete()[0]:
        raise InvitationEnded


@transaction.atomic
def change_role(*, member: Member, role: str, at: datetime) -> None:
    """Raises LastKeeper."""
    _keep_a_keeper(member, stays_keeper=role == Member.Role.KEEPER)
    if Member.objects.filter(pk=member.pk).exclude(role=role).update(role=role):
        _end_what_rests_on(member, at=at)


@transaction.atomic
def remove_member(*, member: Member, at: datetime) -> None:
    """End a membership. The account and all that was entered stay. Raises LastKeeper."""
    _keep_a_keeper(member, stays_keeper=False)
    _end_what_rests_on(member, at=at)
    member.delete()


def _keep_a_keeper(member: Member, *, stays_keeper: bool) -> None:
    # Two keepers who step down at the same moment would each see the other: the workroom is locked.
    Workroom.objects.select_for_update().get(pk=member.workroom_id)
    before = Member.objects.get(pk=member.pk)
    if before.is_last_keeper and not stays_keeper:
        raise LastKeeper


def _end_what_rests_on(member: Member, *, at: datetime) -> None:
    """Addresses made for the person in the role they had, and whatever they handed out as a keeper."""
    addresses = SignInAddress.objects.of_workroom(member.workroom).still_open(at)
    addresses.filter(Q(user=member.user_id) | Q(made_by=member.user_id)).update(ended_at=at)
    member.workroom.invitations.still_open(at).filter(made_by=member.user_id).delete()
