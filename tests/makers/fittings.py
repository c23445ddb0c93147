"""Makers of fittings and what comes of them: each gives the smallest true thing, as in `rows.py`."""

import datetime
import io

from PIL import Image

from catalogue.photographs.imaging import SIZES
from catalogue.workroom.files import put
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.actions import make_share
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share
from tests.makers.rows import NOON, um


def make_fitting(outfit: Outfit, **given) -> Fitting:
    """Of every garment that the outfit has by then."""
    fitting = Fitting.objects.create(
        **{"outfit": outfit, "wearer": outfit.wearer, "planned_for": NOON, "place": "the loft", **given}
    )
    fitting.garments.set(outfit.garments.all())
    return fitting


def make_observation(fitting: Fitting, **given) -> Observation:
    first = {"fitting": fitting, "garment": fitting.garments.first(), "place": "waist"}
    seen = {"what": "let out", "amount_um": um("1/2 in"), "amount_text": "1/2 in", "seen_at": NOON}
    return Observation.objects.create(**{**first, **seen, **given})


def make_observation_photo(observation: Observation, content: bytes = b"a file") -> ObservationPhoto:
    """With the files that it stands for."""
    stem = f"seen{observation.photos.count() + 1}of{observation.pk}"
    photo = ObservationPhoto.objects.create(observation=observation, stem=stem, width=600, height=800)
    for size in SIZES:
        put(photo.file(size), content)
    return photo


def make_alteration(garment: Garment, parts: tuple[str, ...] = ("paper", "toile"), **given) -> Alteration:
    alteration = Alteration.objects.create(
        **{
            "garment": garment,
            "wearer": garment.outfit.wearer,
            "edge": "side seam",
            "what": "let out",
            "amount_um": um("1/4 in"),
            "amount_text": "1/4 in",
            "edges": 2,
            "decided_at": NOON - datetime.timedelta(days=1),
            **given,
        }
    )
    for part in parts:
        AlterationPart.objects.create(alteration=alteration, part=part)
    return alteration


def make_inlay(garment: Garment, text: str = "1 in", **given) -> Inlay:
    first = {"garment": garment, "edge": "side seam", "edges": 2}
    return Inlay.objects.create(**{**first, "allowance_um": um(text), "allowance_text": text, **given})


def make_trial(garment: Garment, measures: dict[str, tuple[str, str]] | None = None, **given) -> Trial:
    """`measures`: forecast and flat after sewing, by line."""
    trial = Trial.objects.create(**{"garment": garment, "made_on": NOON.date(), **given})
    for line, (forecast, sewn) in (measures or {}).items():
        TrialMeasure.objects.create(
            trial=trial,
            wearer=garment.outfit.wearer,
            line=line,
            forecast_um=um(forecast),
            forecast_text=forecast,
            sewn_um=um(sewn),
            sewn_text=sewn,
        )
    return trial


def make_shared(outfit: Outfit, *, entries, photos=(), **given) -> tuple[Share, str]:
    """A share and its secret, good for a week after now."""
    ends = datetime.datetime.now(datetime.UTC) + datetime.timedelta(days=7)
    share = Share(**{"outfit": outfit, "label": "a friend", "expires_at": ends, **given})
    return share, make_share(share, entries=entries, photos=photos)


def jpeg(colour: str = "teal") -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (60, 40), colour).save(file, "JPEG")
    return file.getvalue()
