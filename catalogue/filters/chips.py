"""The filters in use, each with the address that is left without it."""

from dataclasses import dataclass

from django.http import QueryDict

from catalogue.filters.reference import ReferenceFilter

# One chip for what belongs together: a level without its lengths, or they without it, says nothing.
TOGETHER = {"line": ("line", "girth_from", "girth_to")}
PARTS = frozenset({"girth_from", "girth_to"})


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
