"""What the page says on which a row is deleted: a row in this table for every kind that a page deletes.

Each subject tells its own, in its `kinds.py`, when the app starts. One view asks (`views/deletion.py`), on
one page, at an address that each subject names as it likes. All that is deleted goes into the bin.
"""

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Model
from django.urls import reverse
from django.utils.text import capfirst

from catalogue.workroom.models import User
from catalogue.workroom.uses import Use

# A row that has a page of its own; or what a page is called, the name of its address, and what that takes.
Page = Model | tuple[Any, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """What the page says of other rows: a sentence, then each of them. `is_care`: it is set apart."""

    sentence: str
    rows: Collection[Model | Use] = ()
    heading: str = ""
    is_care: bool = False

    @property
    def links(self) -> list[Use]:
        return [one if isinstance(one, Use) else link_to(one) for one in self.rows]


@dataclass(frozen=True, slots=True, kw_only=True)
class Deletion:
    """How the rows of one model are asked about. `key`: the field whose number is in the address.

    `asks`: the question; `the`: what the button calls the row, if not by its model, and `name`: what the
    question calls it, if more. `way`: the pages that it lies below, from the outermost; on the last of them
    one lands. `has_page`: it has one itself. `picture`: the name of the address of its picture. `says`: what
    else its deletion means; `tells`: the same, where it is not one for all. `obstacle`: why it must stay.
    """

    model: type[Model]
    way: Callable[[Any], Iterable[Page]]
    the: str = ""
    name: str = ""
    asks: str = "Delete {}"
    has_page: bool = False
    picture: str = ""
    says: str = ""
    tells: Callable[[Any, User], Iterable[str | Notice]] = lambda row, user: ()
    obstacle: Callable[[Any], Notice | None] = lambda row: None
    key: str = "pk"

    def question(self, row: Model) -> str:
        return self.asks.format((self.name or self._word).format(row=row))

    @property
    def button(self) -> str:
        return self.asks.format(self._word)

    @property
    def _word(self) -> str:
        return self.the or f"the {self.model._meta.verbose_name}"

    def notices(self, row: Model, user: User) -> list[Notice]:
        said = (self.says, *self.tells(row, user))
        return [one if isinstance(one, Notice) else Notice(sentence=one) for one in said if one]

    def crumbs(self, row: Model) -> list[Use]:
        return [link_to(page) for page in (*self.way(row), *([row] if self.has_page else []))]

    def after(self, row: Model) -> str:
        *_, last = self.way(row)
        return link_to(last).url


DELETIONS: dict[type[Model], Deletion] = {}


def register_deletions(*deletions: Deletion) -> None:
    DELETIONS.update({one.model: one for one in deletions})


def link_to(page: Page) -> Use:
    if isinstance(page, tuple):
        label, address, *args = page
        return Use(label=label, url=reverse(address, args=args))
    return Use(label=capfirst(str(page)), url=page.get_absolute_url())
