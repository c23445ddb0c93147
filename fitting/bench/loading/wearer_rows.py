"""All that is held of one person: what stands in the tables, and what the bin holds."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from django.db.models import Model, QuerySet

from catalogue.photographs.models import WithCopies
from catalogue.workroom.bin import Bin, RowKey, left_without, row_key, rows_going_with
from catalogue.workroom.persons import OF_PERSON
from catalogue.workroom.showing import counted, is_told
from fitting.wearers.models import Wearer

# More than so many of a kind are counted only.
NAMED = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """`theirs`: the rows of each model that are the person's, erased with them or kept without their name.

    `going`: all rows that are erased, the person's own among them. `gone`: the keys of these, and of what the
    bin holds of them.
    """

    theirs: Mapping[type[Model], QuerySet]
    going: Sequence[Model]
    gone: frozenset[RowKey]
    bin: Bin

    @property
    def erased(self) -> list[QuerySet]:
        return [rows for model, rows in self.theirs.items() if not OF_PERSON[model].stays]

    @property
    def binned(self) -> list[Model]:
        return [row for key, row in self.bin.rows.items() if key in self.gone]

    @property
    def photographs(self) -> list[WithCopies]:
        return [row for row in (*self.going, *self.binned) if isinstance(row, WithCopies)]

    def told(self) -> list[tuple[str, list[str]]]:
        """How many of each kind are erased; and which, where they are the person's by themselves and few."""
        by_model: defaultdict[type[Model], list[Model]] = defaultdict(list)
        for row in self.going:
            by_model[type(row)].append(row)
        return [
            (counted(model, len(rows)), _names(rows))
            for model, rows in by_model.items()
            if model is not Wearer and is_told(model)
        ]

    def binned_told(self) -> list[str]:
        """What the bin gives up, as it is called there: all of it, or what is the person's."""
        left = [(one, left_without(one, self.gone)) for one in self.bin.all]
        return [
            str(one) if not rows else f"{one}: what is theirs of it" for one, rows in left if rows != one.rows
        ]


def held_of(wearer: Wearer) -> Held:
    held = Bin(wearer.workroom)
    theirs = {model: model._default_manager.filter(one.rows(wearer)) for model, one in OF_PERSON.items()}
    binned = list(held.whose(wearer))
    for model, one in OF_PERSON.items():
        if one.beside:
            seen_in = _seen_in(model, theirs, binned, held)
            theirs[model] |= model._default_manager.filter(**{f"{one.beside}__in": seen_in})
            binned += [
                row
                for row in held.rows.values()
                if isinstance(row, model) and held.at(row, one.beside) in seen_in
            ]
    erased = [rows for model, rows in theirs.items() if not OF_PERSON[model].stays]
    going = {row_key(row): row for row in rows_going_with(chain([wearer], *erased))}
    gone = {*going, *(row_key(row) for row in binned if not OF_PERSON[type(row)].stays)}
    return Held(
        theirs=theirs,
        going=list(going.values()),
        gone=frozenset(gone | held.falling_with(gone)),
        bin=held,
    )


def _names(rows: Sequence[Model]) -> list[str]:
    return [str(row) for row in rows] if len(rows) <= NAMED and type(rows[0]) in OF_PERSON else []


def _seen_in(
    beside: type[Model], theirs: Mapping[type[Model], QuerySet], binned: Sequence[Model], held: Bin
) -> set[Any]:
    """The numbers of the rows in which anything of the person stands that a row of `beside` tells of."""
    one = OF_PERSON[beside]
    whole = beside._meta.get_field(one.beside).related_model
    ways = {model: one.way_from(model, whole) for model in theirs if not OF_PERSON[model].beside}
    seen = {
        number for model, way in ways.items() if way for number in theirs[model].values_list(way, flat=True)
    }
    return seen | {held.at(row, ways[type(row)]) for row in binned if ways.get(type(row))}
