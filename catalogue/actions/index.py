"""Index cards and full-size measures, written again whenever what they are drawn from changes.

    with refiled(reference):
        formset.save()

Whatever writes a garment, or a part of one, does it inside `refiled`; a source, inside `source_refiled`.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from django.db import transaction

from catalogue.bridge import plate_findings
from catalogue.measuring.findings import Finding
from catalogue.measuring.scale import ScaleNotUnderstood
from catalogue.models import FullSizeMeasure, IndexCard, Plate, ReferenceGarment, Source
from catalogue.search import fill_card

AT_A_TIME = 500


@contextmanager
def refiled(*references: ReferenceGarment) -> Iterator[None]:
    """Write the garments' derived rows again after the block, in one transaction with it."""
    with transaction.atomic():
        yield
        file_references({reference.pk for reference in references})


@contextmanager
def source_refiled(source: Source) -> Iterator[None]:
    """The same for a source, and for the garments that cite it."""
    with transaction.atomic():
        yield
        file_sources({source.pk})
        file_references(set(source.citations.values_list("reference", flat=True)))


@transaction.atomic
def file_references(keys: Iterable[int]) -> None:
    """Write the cards and the full-size measures of these garments, a batch at a time."""
    for batch in _batches(keys):
        references = list(ReferenceGarment.objects.filter(pk__in=batch).for_index())
        IndexCard.objects.filter(reference__in=batch).delete()
        IndexCard.objects.bulk_create(fill_card(reference) for reference in references)
        FullSizeMeasure.objects.filter(reference__in=batch).delete()
        plates = (plate for reference in references for plate in reference.plates.all())
        FullSizeMeasure.objects.bulk_create(measure for plate in plates for measure in _measures(plate))


@transaction.atomic
def file_sources(keys: Iterable[int]) -> None:
    for batch in _batches(keys):
        IndexCard.objects.filter(source__in=batch).delete()
        IndexCard.objects.bulk_create(
            fill_card(source) for source in Source.objects.filter(pk__in=batch).order_by("pk")
        )


def file_all() -> tuple[int, int]:
    """Write every derived row of every workroom again. Returns how many garments and sources there are."""
    references = list(ReferenceGarment.objects.order_by("pk").values_list("pk", flat=True))
    sources = list(Source.objects.order_by("pk").values_list("pk", flat=True))
    file_references(references)
    file_sources(sources)
    return len(references), len(sources)


def file_unfiled() -> None:
    """File what no card is written for: rows that came here before there were cards."""
    file_references(ReferenceGarment.objects.filter(index_card=None).values_list("pk", flat=True))
    file_sources(Source.objects.filter(index_card=None).values_list("pk", flat=True))


def _batches(keys: Iterable[int]) -> Iterator[list[int]]:
    ordered = sorted(keys)
    for start in range(0, len(ordered), AT_A_TIME):
        yield ordered[start : start + AT_A_TIME]


def _measures(plate: Plate) -> Iterator[FullSizeMeasure]:
    try:
        of_cloths = plate_findings(plate)
    except ScaleNotUnderstood:  # a plate begun, without its scale yet
        return
    for found in of_cloths.values():
        for finding in found.by_line.values():
            ends_um = sorted(round(1000 * mm) for mm in _both(finding))
            yield FullSizeMeasure(
                plate=plate,
                reference_id=plate.reference_id,
                line=finding.line,
                least_um=ends_um[0],
                most_um=ends_um[-1],
            )


def _both(finding: Finding) -> list[float]:
    """The measure in mm, and while the allowance is not known what it is with one as well."""
    included = [finding.if_included.mm] if finding.if_included else []
    return [finding.full_size.mm, *included]
