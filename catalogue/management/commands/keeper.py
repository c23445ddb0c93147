"""Makes a workroom with its first keeper; for somebody who is in one already, a new address to sign in."""

from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.validators import UnicodeUsernameValidator
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.core.validators import MaxLengthValidator
from django.db import transaction

from catalogue.workroom.actions.members import found_workroom
from catalogue.workroom.models import User
from catalogue.workroom.sign_in import one_time_path

MOST_LETTERS = 100


class Command(BaseCommand):
    help = "Make a workroom with its first keeper, and print an address that signs them in once."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("username", help="what the keeper signs in with")
        parser.add_argument("--workroom", metavar="NAME", help="name of the workroom to make")
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
            if workroom or not user.memberships.exists():
                made = found_workroom(name=workroom or f"Workroom of {username}", keeper=user)
                self.stdout.write(f"{username} keeps a new workroom: {made}.")
        self.stdout.write("This address signs in once, within three days:")
        self.stdout.write(at.rstrip("/") + one_time_path(user))


def _make_user(username: str) -> User:
    try:
        UnicodeUsernameValidator()(username)
        MaxLengthValidator(MOST_LETTERS)(username)
    except ValidationError as fault:
        raise CommandError(
            f"“{username}” cannot be a user name: at most {MOST_LETTERS} letters, digits and @ . + - _ only."
        ) from fault
    return User.objects.create_user(username=username)
