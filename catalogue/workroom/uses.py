"""Who uses a reference garment or a source: a registry that the fitting app fills when it starts.

The catalogue knows nothing of outfits; it only asks whoever registered.
"""

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

from django.db.models import Model, Q, QuerySet

from catalogue.workroom.models import User


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    label: str
    url: str


# The first are the keys of reference garments.
UsesOf = Callable[[Collection[int], User], Iterable[Use]]
# Querysets of the keys of reference garments in use, of any workroom.
UsedKeys = Callable[[], Iterable[QuerySet]]
_asked: list[UsesOf] = []
_asked_for_keys: list[UsedKeys] = []


def register(uses_of: UsesOf, used_keys: UsedKeys) -> None:
    if uses_of not in _asked:
        _asked.append(uses_of)
        _asked_for_keys.append(used_keys)


def uses_of_reference(reference: Model, user: User) -> list[Use]:
    """Return each use of `reference` that `user` may see."""
    return _uses_of({reference.pk}, user)


def uses_of_source(source: Model, user: User) -> list[Use]:
    """Return each use that `user` may see of the garments whose facts, measures or plates rest on it."""
    return _uses_of(set(source.keys_of_references()), user)


def _uses_of(keys: Collection[int], user: User) -> list[Use]:
    return [use for uses_of in _asked for use in uses_of(keys, user)]


def is_used() -> Q:
    """What filters reference garments to those that anybody uses."""
    used = Q(pk__in=[])
    for used_keys in _asked_for_keys:
        for keys in used_keys():
            used |= Q(pk__in=keys)
    return used
