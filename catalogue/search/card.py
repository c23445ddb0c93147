"""What stands on the index card of a garment or a source, and in which column."""

from collections.abc import Iterable

from catalogue.models import IndexCard, ReferenceGarment, Source
from catalogue.search.words import LONGEST_TEXT, folded


def fill_card(row: ReferenceGarment | Source) -> IndexCard:
    """Return the card of a garment or a source, not saved yet. A garment’s comes from `for_index`."""
    return _garment_card(row) if isinstance(row, ReferenceGarment) else _source_card(row)


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
