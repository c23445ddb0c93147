"""How many garments each choice of a filter would leave, the other filters staying as they are."""

from collections import Counter
from collections.abc import Iterable

from django.db.models import BooleanField, Count, ExpressionWrapper

from catalogue.filters.reference import WITH_OR_WITHOUT, ReferenceFilter, has
from catalogue.references.models.garment import Dress

FLAGS = ("plates", "drafts", "readings", "photos", "used")
Choices = list[tuple[str, str]]


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
