"""What to check: measures that may not hold, doubts that a comparison names, questions not answered."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from catalogue.lengths.showing import Writing
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import plate_agreements, plate_findings
from catalogue.plates.models.piece import Seam
from catalogue.plates.models.plate import Plate
from fitting.comparing.calculation.next_step import UNSETTLED, StepKind
from fitting.comparing.loading.body import MeasureOrigin, MeasuresUsed
from fitting.comparing.showing.comparison import ComparisonReport
from fitting.comparing.showing.standing import GarmentStanding
from fitting.fittings.loading.alterations import words_of
from fitting.fittings.models.alteration import Alteration
from fitting.outfits.loading.patterns import BEFORE_CUTTING
from fitting.outfits.models.garment import Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One thing to settle; `more` is for the work table, where there is time to read it.

    `about` sorts it: altered, next, missing, comparison, measures, doubt, plate …
    """

    about: str
    sentence: str
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentChecks:
    garment: str
    checks: tuple[Check, ...]


def checks_of(
    standing: GarmentStanding, shown: ComparisonReport | None, plate: Plate | None, writing: Writing
) -> tuple[Check, ...]:
    """All that is open about a garment, what helps most first; nothing once it is cut.

    `plate` comes with all its rows, as `Plate.objects.for_detail_page` fetches them.
    """
    # Afterwards a comparison no longer tells anything that the cloth does not.
    if standing.garment.stage not in BEFORE_CUTTING:
        return ()
    return (
        *_next_step(shown),
        *_comparison(standing, shown),
        *_measures(standing.used, shown),
        *_doubts(shown),
        *_plate_questions(plate, writing),
    )


def alteration_checks(rows: Iterable[Alteration], writing: Writing) -> tuple[Check, ...]:
    """What a fitting has to confirm, cut or not. `rows`: open ones, with their parts."""
    return tuple(
        Check(about="altered", sentence=f"{_question(row)} {words_of(row, writing)}.") for row in rows
    )


def _question(row: Alteration) -> str:
    is_begun = any(part.done_on for part in row.parts.all())
    return "Is it right now?" if is_begun else "Decided, and not ticked anywhere yet:"


def _next_step(shown: ComparisonReport | None) -> Iterator[Check]:
    # What the maker can do, and the first act of a route, are nothing to check on a wearer.
    if shown and shown.answer.next_step and shown.next_kind not in (StepKind.SKILL, StepKind.ACT):
        yield Check(about="next", sentence=shown.answer.next_step)


def _comparison(standing: GarmentStanding, shown: ComparisonReport | None) -> Iterator[Check]:
    """Whether there is one, and whether it still says what it would say today."""
    if shown is None:
        yield from (Check(about="missing", sentence=one.sentence) for one in standing.missing)
        if not standing.missing:
            yield Check(about="missing", sentence="Not compared yet, though nothing is missing.")
    elif standing.is_out_of_date:
        sentence = f"{standing.why_out_of_date} Compare it again."
        yield Check(about="comparison", sentence=sentence)


def _measures(used: MeasuresUsed | None, shown: ComparisonReport | None) -> Iterator[Check]:
    """Stale ones with how much it could matter; those that nobody took over what is worn beneath."""
    if used is None or shown is None:
        return
    if used.stale:
        matters = [
            f"{line.label}: {line.matters[0].lower()}{line.matters[1:]}"
            for line in shown.lines
            if line.matters
        ]
        sentence = f"Its measures may not hold: {used.stale}."
        yield Check(about="measures", sentence=sentence, more=" ".join(matters))
    for how in (MeasureOrigin.EXPECTED, MeasureOrigin.BUILT_UP):
        lines = [
            line.label for line in shown.lines if line.line in used.lines and used.lines[line.line].how is how
        ]
        if lines:
            named = f"Not measured but {how}: {', '.join(lines)}."
            yield Check(about="measures", sentence=f"{named} Measure over what is worn beneath.")


def _doubts(shown: ComparisonReport | None) -> Iterator[Check]:
    for line in shown.lines if shown else ():
        if line.answer.verdict in UNSETTLED:
            sentence = f"{line.label}: {line.answer.verdict}, {line.likely}."
            yield Check(about="doubt", sentence=sentence, more=line.most_doubt)


def _plate_questions(plate: Plate | None, writing: Writing) -> Iterator[Check]:
    if plate is None:
        return
    if plate.allowance == Plate.AllowanceKind.UNKNOWN:
        yield Check(about="plate", sentence="Does the plate include seam allowance? Nobody knows yet.")
    for seam in plate.seams.all():
        if seam.evidence == Seam.Evidence.UNKNOWN:
            yield Check(about="seam", sentence=f"How {seam} is sewn is not known: try it in miniature.")
    yield from (Check(about="plate", sentence=one) for one in disagreements(plate, writing))


def disagreements(plate: Plate, writing: Writing) -> list[str]:
    """Where the plate contradicts itself or what was published of the garment."""
    try:
        agreements = plate_agreements(plate, plate_findings(plate))
    except ScaleNotUnderstood:
        return []
    return [one.sentence(writing.system) for one in agreements if not one.agrees]


def checklist(found: Iterable[tuple[Garment, tuple[Check, ...]]]) -> tuple[GarmentChecks, ...]:
    """Garments with something to check, from the skin outward."""
    return tuple(GarmentChecks(garment=garment.name, checks=checks) for garment, checks in found if checks)
