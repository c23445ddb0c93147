"""Fittings of the demo outfits, as `fittings.json` tells them, with what came of them."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from catalogue.lengths.models import TypedLength
from catalogue.photographs.imaging import read_upload
from catalogue.plates.models.piece import Piece, Seam
from fitting.fittings.actions import keep_photos, save_fitting, save_trial
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation
from fitting.fittings.models.trial import Trial
from fitting.outfits.actions import make_share
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternChange, PatternInHand
from fitting.outfits.models.share import Share
from fitting.site.demo.told import Told, given

Row = Mapping[str, Any]
Garments = Mapping[str, Garment]
SHARED_FOR = timedelta(days=60)


def load_fittings(told: Told, garments: Garments) -> None:
    """`garments` by `outfit/garment`, compared and measured already."""
    rows = told.fittings()
    for row in rows["fittings"]:
        own = {
            name.split("/")[1]: one for name, one in garments.items() if name.startswith(f"{row['outfit']}/")
        }
        _fitting(told, own, row)
    for row in rows["inlays"]:
        cut_with = TypedLength.of(row["allowance"])
        Inlay.objects.create(
            garment=garments[row["garment"]], allowance=cut_with, **given(row, "edge", "edges")
        )
    for row in rows["trials"]:
        _trial(told, garments[row["garment"]], row)
    for row in rows["pattern_changes"]:
        pattern = PatternInHand.objects.get(name=row["pattern"])
        day = told.day(row["changed_on"])
        PatternChange.objects.create(pattern=pattern, changed_on=day, **given(row, "part", "what"))
    for row in rows["shares"]:
        outfit = next(one for name, one in garments.items() if name.startswith(f"{row['outfit']}/")).outfit
        _share(told, outfit, row)


def _fitting(told: Told, garments: Garments, row: Row) -> None:
    outfit = next(iter(garments.values())).outfit
    fitting = Fitting(
        outfit=outfit,
        planned_for=told.noon(row["planned_for"]),
        wear="\n".join(row["wear"]),
        checks="\n".join(row["checks"]),
        **given(row, "place", "present"),
    )
    save_fitting(fitting, garments=[garments[key] for key in row["garments"]])
    for number, seen in enumerate(row["observations"]):
        _observation(told, fitting, garments[seen["garment"]], seen, minutes=number)
    if "closed_on" in row:
        fitting.closed_at, fitting.closed_by = told.noon(row["closed_on"]), outfit.maker
        fitting.measures = outfit.wearer.measures.filter(taken_on=told.day(row["planned_for"])).first()
        fitting.save()


def _observation(told: Told, fitting: Fitting, garment: Garment, row: Row, *, minutes: int) -> None:
    seen_at = fitting.planned_for + timedelta(minutes=minutes)
    observation = Observation.objects.create(
        fitting=fitting,
        garment=garment,
        seen_at=seen_at,
        seen_by=fitting.outfit.maker,
        **given(row, "place", "side", "what", "note", "dropped_because"),
        amount=TypedLength.of(row.get("amount")),
    )
    if "photo" in row:
        with (told.folder / "pictures" / row["photo"]).open("rb") as file:
            keep_photos(observation, [read_upload(file)])
    for altered in row.get("alterations", ()):
        _alteration(told, observation, altered)


def _alteration(told: Told, observation: Observation, row: Row) -> None:
    garment = observation.garment
    alteration = Alteration.objects.create(
        garment=garment,
        observation=observation,
        wearer=observation.fitting.wearer,
        piece=Piece.objects.get(plate=garment.plate, name=row["piece"]),
        decided_at=observation.seen_at,
        decided_by=observation.seen_by,
        **given(row, "edge", "edges", "what", "note"),
        amount=TypedLength.of(row.get("amount")),
    )
    for part, day in row["parts"].items():
        AlterationPart.objects.create(alteration=alteration, part=part, done_on=told.day(day))


def _trial(told: Told, garment: Garment, row: Row) -> None:
    trial = Trial(
        garment=garment, made_on=told.day(row["made_on"]), **given(row, "kind", "made_of", "learnt")
    )
    seams = [
        Seam.objects.get(plate=garment.plate, piece_a__name=piece, edge_a=edge)
        for piece, edge in row.get("seams", ())
    ]
    measures = [
        {"line": line} | dict(zip(("forecast", "sewn", "fitted"), map(TypedLength.of, texts), strict=True))
        for line, texts in row["measures"].items()
    ]
    save_trial(trial, seams=seams, measures=measures)


def _share(told: Told, outfit: Outfit, row: Row) -> None:
    """The first entries of the log with a photograph; nobody is given its address."""
    photos = LogPhoto.objects.filter(entry__outfit=outfit, shows_wearer=False).order_by("entry__day")
    chosen = list(photos[: row["photos"]])
    share = Share(outfit=outfit, label=row["label"], made_by=outfit.maker, expires_at=told.at + SHARED_FOR)
    make_share(share, entries=[photo.entry for photo in chosen], photos=chosen)
