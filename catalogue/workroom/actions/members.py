"""Members of a workroom come, change and leave."""

from django.db import transaction

from catalogue.workroom.models import Member, User, Workroom


class LastKeeper(Exception):
    """The change would leave a workroom that nobody keeps."""

    sentence = "This is the last keeper of the workroom. Make another member keeper first."


@transaction.atomic
def found_workroom(*, name: str, keeper: User) -> Workroom:
    """Make a workroom with its first keeper."""
    workroom = Workroom.objects.create(name=name)
    Member.objects.create(workroom=workroom, user=keeper, role=Member.Role.KEEPER)
    return workroom


@transaction.atomic
def add_member(*, workroom: Workroom, username: str, role: str) -> Member:
    """Add the person of that user name; one who is new here has no password until they set one."""
    user = User.objects.filter(username=username).first() or User.objects.create_user(username=username)
    return Member.objects.create(workroom=workroom, user=user, role=role)


@transaction.atomic
def change_role(*, member: Member, role: str) -> None:
    """Raises LastKeeper."""
    _keep_a_keeper(member, stays_keeper=role == Member.Role.KEEPER)
    Member.objects.filter(pk=member.pk).update(role=role)


@transaction.atomic
def remove_member(*, member: Member) -> None:
    """The person keeps their account, and whatever they entered stays. Raises LastKeeper."""
    _keep_a_keeper(member, stays_keeper=False)
    member.delete()


def _keep_a_keeper(member: Member, *, stays_keeper: bool) -> None:
    # Two keepers who step down at the same moment would each see the other: the workroom is locked.
    workroom = Workroom.objects.select_for_update().get(pk=member.workroom_id)
    others = workroom.members.filter(role=Member.Role.KEEPER).exclude(pk=member.pk)
    if not stays_keeper and not others.exists():
        raise LastKeeper
