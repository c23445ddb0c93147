"""Whether a garment can be compared, and if not, what is missing and where to type it."""

from dataclasses import dataclass
from typing import Any

from django.urls import reverse_lazy

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.draft import Draft
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import draft_of
from fitting.comparing.calculation.case import Case
from fitting.comparing.exchange.case_file import case_from_json
from fitting.comparing.exchange.case_writing import case_to_json
from fitting.comparing.loading.body import MeasuresUsed
from fitting.comparing.loading.case import OutfitRows, case_of
from fitting.outfits.models.garment import Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class Hindrance:
    """What to put right before a garment can be compared: a sentence, and the page to do it on.

    `needed` names the levels and lengths that a measure or a reading is missing for. `address` is found
    out where it is shown: a dossier shows none, and need not load every view for it.
    """

    sentence: str
    way: str
    address: str
    needed: tuple[str, ...] = ()


class CannotCompare(ValueError):
    """Something is missing, or the figures contradict one another; `missing` says what to do about it."""

    def __init__(self, *missing: Hindrance) -> None:
        self.missing = missing
        super().__init__(" ".join(one.sentence for one in missing))


class MissingMeasure(CannotCompare):
    """The wearer has not been measured where the plate was read; `needed` names those lines."""

    def __init__(self, *missing: Hindrance, needed: tuple[str, ...]) -> None:
        self.needed = needed
        super().__init__(*missing)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyCase:
    """A sound case with the JSON that reads back as exactly this case, and where its measures come from."""

    case: Case
    case_json: dict[str, Any]
    used: MeasuresUsed


def ready_case(garment: Garment, rows: OutfitRows) -> ReadyCase:
    """Raises CannotCompare with all that is missing, MissingMeasure where it is the wearer's measures."""
    used = rows.used(garment)
    if missing := [*_missing_of_plate(garment), *_missing_of_wearer(garment, rows, used)]:
        raise CannotCompare(*missing)
    if (draft := draft_of(garment.plate)) and draft.line not in used.lines:
        raise _draft_measure_missing(draft, used)
    try:
        written = case_to_json(case_of(garment, rows, used))
        # Read back, so that what is stored is exactly what was reckoned with.
        case = case_from_json(written).case
    except ScaleNotUnderstood as fault:
        raise CannotCompare(_at_plate(garment, fault.sentence, "plate-change")) from fault
    except Faults as faults:
        raise CannotCompare(*(_of_fault(garment, fault) for fault in faults.faults)) from faults
    if not case.levels and not case.lengths:
        raise _nothing_in_common(garment, case, used)
    return ReadyCase(case=case, case_json=written, used=used)


def _missing_of_plate(garment: Garment) -> list[Hindrance]:
    if garment.plate is None:
        return [
            Hindrance(
                sentence="It names no plate to compare with.",
                way="Choose its plate",
                address=reverse_lazy("garment-change", args=[garment.pk]),
            )
        ]
    if not any(piece.readings.all() for piece in garment.plate.pieces.all()):
        return [_at_plate(garment, "Nothing has been read off its plate yet.", "plate-detail")]
    return []


def _missing_of_wearer(garment: Garment, rows: OutfitRows, used: MeasuresUsed | None) -> list[Hindrance]:
    if rows.outfit.wearer_id is None:
        return [
            Hindrance(
                sentence="The outfit names no wearer.",
                way="Name the wearer",
                address=reverse_lazy("outfit-change", args=[rows.outfit.pk]),
            )
        ]
    if used is None:
        sentence = f"{rows.outfit.wearer} has no measures that suit what is worn beneath."
        if not rows.sets:
            sentence = f"{rows.outfit.wearer} has not been measured yet."
        return [
            Hindrance(sentence=sentence, way="Type measures", address=_measures_add(rows.outfit.wearer_id))
        ]
    return []


def _draft_measure_missing(draft: Draft, used: MeasuresUsed) -> MissingMeasure:
    label, wearer = LINES[draft.line].label, used.measures.wearer
    sentence = f"Its plate is drawn in parts of the {label}, which is not measured on {wearer}: take it."
    if used.not_over and draft.line == "waist":
        sentence = _not_stated(used)
    return _measure_missing(sentence, used, needed=(draft.line,))


def _not_stated(used: MeasuresUsed) -> str:
    return f"How far {used.not_over[0]} takes in the waist is not stated, nor measured over it."


def _nothing_in_common(garment: Garment, case: Case, used: MeasuresUsed) -> MissingMeasure:
    read = (*case.plate.levels, *case.plate.lengths)
    needed = tuple(line for line in LINES if line in read and line not in used.lines)
    labels = ", ".join(LINES[line].label for line in needed)
    sentence = f"Read on the plate, but not measured on {used.measures.wearer}: {labels}."
    if not needed:
        sentence = "No level that was read and measured is there on this garment."
    elif used.not_over and needed == ("waist",):
        sentence = _not_stated(used)
    return _measure_missing(sentence, used, needed=needed)


def _measure_missing(sentence: str, used: MeasuresUsed, *, needed: tuple[str, ...]) -> MissingMeasure:
    where = reverse_lazy("measures-change", args=[used.measures.pk])
    return MissingMeasure(
        Hindrance(sentence=sentence, way="Complete the measures", address=where, needed=needed), needed=needed
    )


def _of_fault(garment: Garment, fault: Fault) -> Hindrance:
    """A fault of the case, on the page where it can be put right."""
    part, _, line = fault.where.partition(".")
    sentence = f"{LINES[line].label.capitalize()}: {fault.sentence}" if line in LINES else fault.sentence
    if part in ("ease", "fit", "limits"):
        where = reverse_lazy("garment-change", args=[garment.pk])
        return Hindrance(sentence=sentence, way="Change the garment", address=where)
    return _at_plate(garment, sentence, "plate-detail")


def _at_plate(garment: Garment, sentence: str, page: str) -> Hindrance:
    return Hindrance(
        sentence=sentence, way="Go to the plate", address=reverse_lazy(page, args=[garment.plate_id])
    )


def _measures_add(wearer: int) -> str:
    return reverse_lazy("measures-add", args=[wearer])
