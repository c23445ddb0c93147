"""What fittings, toiles and the log hold of one person, as values for their record."""

from typing import Any

from fitting.bench.loading.wearer_rows import alterations_for, fittings_of, log_photos_of, trial_measures_of
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, Observation
from fitting.fittings.models.trial import TrialMeasure
from fitting.laying.models import Lay
from fitting.pattern.models import WorkNote
from fitting.wearers.models import Wearer

_SAID_OF_FITTING = ("place", "present", "wear", "checks", "wear_said", "checks_said", "notes")


def made_for(wearer: Wearer) -> dict[str, Any]:
    fittings = fittings_of(wearer).prefetch_related(
        "garments", "observations__garment", "observations__photos"
    )
    alterations = alterations_for(wearer).select_related("garment", "piece").prefetch_related("parts")
    measured = trial_measures_of(wearer).select_related("trial__garment")
    sheets = WorkNote.objects.filter(wearer=wearer).select_related("garment")
    lays = Lay.objects.filter(wearer=wearer).select_related("garment")
    photos = log_photos_of(wearer).select_related("entry")
    return {
        "fittings": [_fitting(one) for one in fittings],
        "alterations": [_alteration(one) for one in alterations],
        "toiles": [_measured(one) for one in measured],
        "pattern_work": [_sheet(one) for one in sheets],
        "lays": [
            {"garment": lay.garment.name, "asked_at": lay.asked_at.isoformat(), "typed": lay.inputs["form"]}
            for lay in lays
        ],
        "photographs_in_the_log": [
            {
                "file": photo.file_name(2000),
                "day": photo.entry.day.isoformat(),
                "caption": photo.caption,
            }
            for photo in photos
        ],
    }


def _fitting(fitting: Fitting) -> dict[str, Any]:
    return {
        "at": fitting.planned_for.isoformat(),
        "closed_at": fitting.closed_at and fitting.closed_at.isoformat(),
        "garments": [garment.name for garment in fitting.garments.all()],
        **{name: getattr(fitting, name) for name in _SAID_OF_FITTING},
        "observations": [_observation(one) for one in fitting.observations.all()],
    }


def _observation(observation: Observation) -> dict[str, Any]:
    return {
        "garment": observation.garment.name,
        **{name: getattr(observation, name) for name in ("place", "side", "what", "note", "dropped_because")},
        "amount": observation.amount_text,
        "photographs": [photo.file_name(2000) for photo in observation.photos.all()],
    }


def _alteration(alteration: Alteration) -> dict[str, Any]:
    return {
        "garment": alteration.garment.name,
        "piece": alteration.piece.name if alteration.piece else "",
        **{name: getattr(alteration, name) for name in ("edge", "edges", "what", "note")},
        "amount_for_each_edge": alteration.amount_text,
        "done": {part.part: part.done_on and part.done_on.isoformat() for part in alteration.parts.all()},
    }


def _sheet(note: WorkNote) -> dict[str, Any]:
    return {
        "garment": note.garment.name,
        "kind": note.get_kind_display(),
        "kept_at": note.made_at.isoformat(),
        "typed": note.inputs,
        "results": note.results["figures"],
    }


def _measured(row: TrialMeasure) -> dict[str, Any]:
    return {
        "garment": row.trial.garment.name,
        "made_on": row.trial.made_on.isoformat(),
        "line": row.line,
        "forecast": row.forecast.text or f"{row.forecast.mm} mm",
        "after_sewing": row.sewn_text,
        "after_fitting": row.fitted_text,
    }
