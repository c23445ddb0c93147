"""One-time sign-in addresses: how a person comes in before they have a password. Nothing is sent by mail."""

from django.contrib.auth.tokens import PasswordResetTokenGenerator
from django.urls import reverse
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_decode, urlsafe_base64_encode

from catalogue.workroom.models import Member, User


class OneTimeTokens(PasswordResetTokenGenerator):
    """Reckoned from the last sign-in and the password: using a token, or setting a password, spends it."""

    key_salt = "catalogue.workroom.sign_in.OneTimeTokens"


_tokens = OneTimeTokens()


def one_time_path(user: User) -> str:
    """Return the path that signs `user` in once, within PASSWORD_RESET_TIMEOUT (three days)."""
    return reverse(
        "sign-in-once", args=[urlsafe_base64_encode(force_bytes(user.pk)), _tokens.make_token(user)]
    )


def user_of_one_time(uid: str, token: str) -> User | None:
    try:
        user = User.objects.get(pk=urlsafe_base64_decode(uid).decode(), is_active=True)
    except (ValueError, OverflowError, User.DoesNotExist):
        return None
    return user if _tokens.check_token(user, token) else None


def may_renew(user: User, *, by: User) -> bool:
    """Whether `by` keeps every workroom of `user`: whoever holds the address can open them all."""
    kept = by.memberships.filter(role=Member.Role.KEEPER).values("workroom")
    return not user.is_superuser and not user.memberships.exclude(workroom__in=kept).exists()
