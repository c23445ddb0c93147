"""Whose a row is: what is erased with a person, what only loses their name, what their record says.

Nothing here knows who is dressed. Each subject tells it of its kinds (`workroom/kinds.py`).
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Model, Q


@dataclass(frozen=True, slots=True, kw_only=True)
class OfPerson:
    """Which rows of a kind are one person's.

    `by`: the field that names the person; empty where a row names nobody itself. `for_whom`: the way to the
    person that the whole of it is for now: a row that names nobody is theirs, if it is as `where` says.
    `beside`: the field with the row of which all that anything stands in is everybody's who is seen there.
    `stays`: it is kept, without the name; all others are erased. `says`: the columns that the person's record
    says of it; empty: all. `more`: what the record says besides.
    """

    by: str = ""
    for_whom: str = ""
    where: Mapping[str, Any] = field(default_factory=dict)
    beside: str = ""
    stays: bool = False
    says: tuple[str, ...] = ()
    more: Callable[[Any], dict[str, Any]] = lambda row: {}

    def rows(self, person: Model) -> Q:
        """The condition that finds the rows of this person, apart from pictures that show them `beside`
        others.
        """
        theirs = Q(**{self.by: person}) if self.by else Q(pk__in=[])
        if self.for_whom:
            unnamed = {self.by: None} if self.by else {}
            theirs |= Q(**unnamed, **self.where, **{self.for_whom: person})
        return theirs

    def is_whose(self, row: Model, person: Model, *, at: Callable[[Model, str], Any]) -> bool:
        """The same of a row that stands in no table; `at` finds the number at the end of a way up from it."""
        named = at(row, self.by) if self.by else None
        if named is not None or not self.for_whom:
            return named == person.pk
        is_so = all(getattr(row, name) == value for name, value in self.where.items())
        return is_so and at(row, self.for_whom) == person.pk

    def way_from(self, model: type[Model], to: type[Model]) -> str:
        """From a row of that model up to the row that this one stands `beside`; empty where there is none."""
        if model is to:
            return "pk"
        steps = model.workroom_path.split("__")
        return "__".join(steps[: steps.index(self.beside) + 1]) if self.beside in steps else ""


OF_PERSON: dict[type[Model], OfPerson] = {}
