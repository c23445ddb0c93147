"""Makes a workroom with its first keeper; for somebody who is in one already, a new address to sign in."""

from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.validators import UnicodeUsernameValidator
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.core.validators import MaxLengthValidator
from django.db import transaction
from django.utils import timezone

from catalogue.workroom.actions.members import found_workroom
from catalogue.workroom.models import Member, User
from catalogue.workroom.sign_in import make_sign_in_address

MOST_LETTERS = 100


class Command(BaseCommand):
    help = "Make a workroom with its first keeper, and print an address that signs them in once."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("username", help="what the keeper signs in with")
        parser.add_argument("--workroom", metavar="NAME", help="their workroom of that name, or one to make")
        parser.add_argument(
            "--at",
            metavar="ADDRESS",
            default="http://127.0.0.1:8000",
            help="where the program answers (default: %(default)s)",
        )

    def handle(self, *args: Any, username: str, workroom: str | None, at: str, **options: Any) -> None:
        if len(workroom or "") > MOST_LETTERS:
            raise CommandError(f"The name of a workroom has at most {MOST_LETTERS} letters.")
        with transaction.atomic():
            user = User.objects.filter(username=username).first() or _make_user(username)
            member = _place_of(user, workroom) or self._found(workroom or f"Workroom of {username}", user)
            path = make_sign_in_address(member=member, by=None, at=timezone.now())
        self.stdout.write("This address signs in once, within three days:")
        self.stdout.write(at.rstrip("/") + path)

    def _found(self, name: str, user: User) -> Member:
        made = found_workroom(name=name, keeper=user)
        self.stdout.write(f"{user.username} keeps a new workroom: {made}.")
        return user.memberships.get(workroom=made)


def _place_of(user: User, workroom: str | None) -> Member | None:
    """Where they are to be let in; None: a workroom is to be made."""
    places = list(user.memberships.select_related("workroom"))
    if workroom:
        return next((place for place in places if place.workroom.name == workroom), None)
    if len(places) > 1:
        names = ", ".join(f"“{place.workroom}”" for place in places)
        raise CommandError(f"{user.username} is a member of {names}: name one with --workroom.")
    return places[0] if places else None


def _make_user(username: str) -> User:
    try:
        UnicodeUsernameValidator()(username)
        MaxLengthValidator(MOST_LETTERS)(username)
    except ValidationError as fault:
        raise CommandError(
            f"“{username}” cannot be a user name: at most {MOST_LETTERS} letters, digits and @ . + - _ only."
        ) from fault
    return User.objects.create_user(username=username)
