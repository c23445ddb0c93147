"""What a workroom holds of saved filters; and what stands on the cards that garments and sources have.

Both are registered when the app starts: the index itself knows no garment.
"""

from collections.abc import Iterable, Iterator

from catalogue.finding.models import FullSizeMeasure, IndexCard, SavedFilter
from catalogue.plates.calculation.findings import Finding
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import plate_findings
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.index.filing import FILED, Filing
from catalogue.workroom.index.words import LONGEST_TEXT, folded
from catalogue.workroom.kinds import Kind, excuse, register

register(Kind(model=SavedFilter, name="saved_filters", once="name"))
excuse("It is written again from what it is of.", IndexCard, FullSizeMeasure)


def file_garments(keys: list[int]) -> None:
    """The cards and the full-size measures of these garments, written again, after what is traced."""
    # Only when something is written: the program would take longer to start with all that reads a tracing.
    from catalogue.tracing.actions.tracing import follow_tracings

    follow_tracings(keys)
    references = list(ReferenceGarment.objects.filter(pk__in=keys).for_index())
    IndexCard.objects.filter(reference__in=keys).delete()
    IndexCard.objects.bulk_create(_garment_card(reference) for reference in references)
    FullSizeMeasure.objects.filter(reference__in=keys).delete()
    plates = (plate for reference in references for plate in reference.plates.all())
    FullSizeMeasure.objects.bulk_create(measure for plate in plates for measure in _measures(plate))


def file_sources(keys: list[int]) -> None:
    """The cards of these sources, written again."""
    IndexCard.objects.filter(source__in=keys).delete()
    IndexCard.objects.bulk_create(
        _source_card(source) for source in Source.objects.filter(pk__in=keys).order_by("pk")
    )


def _garment_card(reference: ReferenceGarment) -> IndexCard:
    facts = (
        reference.kind,
        reference.get_dress_display(),
        reference.holder,
        reference.accession,
        *(tag.name for tag in reference.tags.all()),
    )
    described = (reference.place, reference.materials, reference.technique, reference.fastening)
    notes = (reference.construction_notes, reference.seam_evidence_note)
    around = [*_of_plates(reference), *_of_citations(reference)]
    return IndexCard(
        reference=reference,
        name=folded(reference.name),
        place=folded(reference.place),
        materials=folded(reference.materials),
        technique=folded(reference.technique),
        fastening=folded(reference.fastening),
        facts=folded(*facts),
        notes=folded(*notes),
        around=folded(*around),
        text=_written(*described, *facts, *notes, *around),
    )


def _of_plates(reference: ReferenceGarment) -> Iterable[str]:
    for plate in reference.plates.all():
        yield from (plate.title, plate.notes)
        if plate.is_draft:
            yield f"proportional draft for {plate.drawn_for_in_words}"
        for piece in plate.pieces.all():
            yield from (piece.name, piece.notes)


def _of_citations(reference: ReferenceGarment) -> Iterable[str]:
    for citation in reference.citations.all():
        yield from (citation.source.title, citation.source.authors, citation.fact)


def _source_card(source: Source) -> IndexCard:
    facts = (source.authors, source.get_kind_display(), source.container, source.publisher, source.identifier)
    dated = (source.date, source.place)
    return IndexCard(
        source=source,
        name=folded(source.title),
        place=folded(source.place),
        facts=folded(*facts, source.date),
        notes=folded(source.notes),
        text=_written(*facts, *dated, source.notes),
    )


def _written(*texts: str) -> str:
    return " · ".join(dict.fromkeys(filter(None, (" ".join(text.split()) for text in texts))))[:LONGEST_TEXT]


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


FILED["references"] = Filing(model=ReferenceGarment, file=file_garments)
FILED["sources"] = Filing(model=Source, file=file_sources)
register_deletions(
    Deletion(
        model=SavedFilter,
        the="the filter",
        name="“{row}”",
        asks="Forget {}",
        way=lambda saved: [("Reference garments", "reference-list")],
        says="It is forgotten for the whole workroom. The garments it finds stay as they are.",
    ),
)
