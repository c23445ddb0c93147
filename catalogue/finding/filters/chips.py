"""The filters in use, each with the address that is left without it; and those still to choose from.

Each choice says how many garments it would leave, the other filters staying as they are.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import BooleanField, Count, ExpressionWrapper
from django.http import QueryDict

from catalogue.finding.filters.reference import WITH_OR_WITHOUT, ReferenceFilter, has
from catalogue.references.models.garment import Dress

# One chip for what belongs together: a level without its lengths, or they without it, says nothing.
TOGETHER = {"line": ("line", "girth_from", "girth_to")}
PARTS = frozenset({"girth_from", "girth_to"})
# What a garment has or has not: counted with and without.
FLAGS = ("plates", "drafts", "readings", "photos", "used")
Choices = list[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chip:
    label: str
    text: str
    query_without: str


def chips(found: ReferenceFilter, asked: QueryDict) -> list[Chip]:
    return [
        Chip(
            label=found.filters[name].label,
            text=_text(found, name),
            query_without=query_without(asked, *TOGETHER.get(name, (name,))),
        )
        for name in found.in_use
        if name not in PARTS or "line" not in found.in_use
    ]


def kept_query(found: ReferenceFilter, asked: QueryDict) -> str:
    """What of the address is worth keeping under a name: the filters in use, and how the list is shown."""
    return query_without(asked, *(name for name in asked if name != "as" and name not in found.in_use))


def _text(found: ReferenceFilter, name: str) -> str:
    value = found.form.cleaned_data[name]
    if name == "line":
        ends = [found.form.cleaned_data.get(part) for part in ("girth_from", "girth_to")]
        label = dict(found.form.fields["line"].choices)[value]
        words = [f"{word} {end.text}" for word, end in zip(("from", "to"), ends, strict=True) if end]
        return " ".join((label, *words))
    # A choice is told by its words, which stand in the widget with its count behind them.
    choices = dict(getattr(found.form.fields[name].widget, "choices", ()))
    label = choices.get(str(value), str(value))
    return label.rpartition(" (")[0] or label


def query_without(asked: QueryDict, *names: str) -> str:
    left = asked.copy()
    for name in (*names, "page"):
        left.pop(name, None)
    return left.urlencode()


def count_choices(found: ReferenceFilter) -> None:
    """Write the counts into the choices of the filter's form. Three queries."""
    _count_kinds(found)
    _count_tags(found)
    _count_flags(found)


def _count_kinds(found: ReferenceFilter) -> None:
    rows = found.without("dress", "kind").order_by().values_list("dress", "kind").annotate(Count("pk"))
    chosen = {name: found.form.cleaned_data.get(name) for name in ("dress", "kind")}
    dresses: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    for dress, kind, count in rows:
        if not chosen["kind"] or kind == chosen["kind"]:
            dresses[dress] += count
        if not chosen["dress"] or dress == chosen["dress"]:
            kinds[kind] += count
    if chosen["kind"]:
        kinds.setdefault(chosen["kind"], 0)
    del kinds[""]
    _offer(found, "dress", "any kind", [(key, label, dresses[key]) for key, label in Dress.choices])
    _offer(
        found, "kind", "any garment", [(kind, kind, kinds[kind]) for kind in sorted(kinds, key=str.casefold)]
    )


def _count_tags(found: ReferenceFilter) -> None:
    tagged = found.without("tag").order_by().filter(tags__isnull=False).values_list("tags__name")
    counts = dict(tagged.annotate(Count("pk")))
    if chosen := found.form.cleaned_data.get("tag"):
        counts.setdefault(chosen, 0)
    _offer(found, "tag", "any tag", [(tag, tag, counts[tag]) for tag in sorted(counts, key=str.casefold)])


def _count_flags(found: ReferenceFilter) -> None:
    """Each flag with and without, among what the other flags leave."""
    marks = {f"has_{name}": ExpressionWrapper(has(name), BooleanField()) for name in FLAGS}
    rows = found.without(*FLAGS).order_by().annotate(**marks)
    # At most thirty-two groups come back: no garment is looked at more than once.
    groups = [(dict(zip(FLAGS, held, strict=True)), count) for *held, count in
              rows.values_list(*marks).annotate(Count("pk"))]  # fmt: skip
    asked = {name: answer == "yes" for name in FLAGS if (answer := found.form.cleaned_data.get(name))}
    for name in FLAGS:
        counts: Counter[str] = Counter()
        for held, count in groups:
            if all(held[other] == wanted for other, wanted in asked.items() if other != name):
                counts["yes" if held[name] else "no"] += count
        _offer(found, name, "either", [(key, label, counts[key]) for key, label in WITH_OR_WITHOUT])


def _offer(found: ReferenceFilter, name: str, empty: str, rows: Iterable[tuple[str, str, int]]) -> None:
    choices: Choices = [("", empty), *((key, f"{label} ({count})") for key, label, count in rows)]
    found.form.fields[name].widget.choices = choices
