"""Index cards and full-size measures, written again whenever what they are drawn from changes.

    with refiled(reference):
        formset.save()

Whatever writes a garment, or a part of one, does it inside `refiled`; a source, inside `source_refiled`. What
stands on a card is told by whoever registers for garments or for sources when the app starts.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from django.db import transaction
from django.db.models import Model

AT_A_TIME = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Filing:
    """`file` writes the derived rows of a batch again, by key; of keys that are no more it writes none."""

    model: type[Model]
    file: Callable[[list[int]], None]


FILED: dict[str, Filing] = {}


@contextmanager
def refiled(*references: Model) -> Iterator[None]:
    """Write the garments' derived rows again after the block, in one transaction with it."""
    with transaction.atomic():
        yield
        file_references({reference.pk for reference in references})


@contextmanager
def source_refiled(source: Model) -> Iterator[None]:
    """The same for a source, and for the garments that cite it."""
    with transaction.atomic():
        yield
        file_sources({source.pk})
        file_references(set(source.citations.values_list("reference", flat=True)))


def file_references(keys: Iterable[int]) -> None:
    """Write the cards and the full-size measures of these garments, a batch at a time."""
    _file(FILED["references"], keys)


def file_sources(keys: Iterable[int]) -> None:
    _file(FILED["sources"], keys)


def file_all() -> dict[str, int]:
    """Write every derived row of every workroom again. Returns how many there are of each."""
    counts = {}
    for name, filed in FILED.items():
        keys = list(filed.model.objects.values_list("pk", flat=True))
        _file(filed, keys)
        counts[name] = len(keys)
    return counts


def file_unfiled() -> None:
    """File what no card is written for: rows that came here before there were cards."""
    for filed in FILED.values():
        _file(filed, filed.model.objects.filter(index_card=None).values_list("pk", flat=True))


def references_of(rows: Iterable[Model]) -> set[int]:
    """The reference garments that the rows are, or are parts of: their index cards are drawn from them."""
    garment, found = FILED["references"].model, set()
    for row in rows:
        way = getattr(row, "workroom_path", "").split("__")
        if not isinstance(row, garment) and not _leads_over(garment, type(row), way):
            continue
        while row is not None and not isinstance(row, garment) and way:
            row = getattr(row, way.pop(0), None)
        if isinstance(row, garment):
            found.add(row.pk)
    return found


def _leads_over(whole: type[Model], model: type[Model], way: list[str]) -> bool:
    """Whether the way up from a row of this model leads over one of the other."""
    for name in filter(None, way):
        model = model._meta.get_field(name).related_model
        if model is whole:
            return True
    return False


def references_on(sources: Iterable[Model]) -> set[int]:
    """The garments that cite what of these is a source."""
    cited = FILED["references"].model.objects.filter(citations__source__in=sources_among(sources))
    return set(cited.values_list("pk", flat=True))


def sources_among(rows: Iterable[Model]) -> set[int]:
    return {row.pk for row in rows if isinstance(row, FILED["sources"].model)}


@transaction.atomic
def _file(filed: Filing, keys: Iterable[int]) -> None:
    ordered = sorted(keys)
    for start in range(0, len(ordered), AT_A_TIME):
        filed.file(ordered[start : start + AT_A_TIME])
