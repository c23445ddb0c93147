"""Who uses a reference garment or a source: a registry that the fitting app fills when it starts.

The catalogue knows nothing of outfits; it only asks whoever registered.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from catalogue.models import ReferenceGarment, User


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    label: str
    url: str


UsesOf = Callable[[ReferenceGarment, User], Iterable[Use]]
_asked: list[UsesOf] = []


def register(uses_of: UsesOf) -> None:
    if uses_of not in _asked:
        _asked.append(uses_of)


def uses_of_reference(reference: ReferenceGarment, user: User) -> list[Use]:
    """Return each use of `reference` that `user` may see."""
    return [use for uses_of in _asked for use in uses_of(reference, user)]
