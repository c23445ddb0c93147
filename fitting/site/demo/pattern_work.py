"""Pattern work that was kept in the demo: a sheet for the jacket, one for the petticoat, and its lay."""

from collections.abc import Mapping
from typing import Any

from catalogue.lengths.calculation.lengths import parse_length
from catalogue.plates.models.plate import Plate
from fitting.laying.actions import lay_widths
from fitting.laying.loading.orders import FOLDED, Cutting, PieceAsked, asked_of
from fitting.laying.loading.pieces import PieceToLay, pieces_to_lay
from fitting.laying.models import Lay
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import keep_work
from fitting.pattern.calculation.alteration import AlterableSeam, LevelChange
from fitting.pattern.calculation.pleats import Known as KnownPleats
from fitting.pattern.calculation.pleats import Pleat
from fitting.pattern.loading.known import Known, known_of
from fitting.pattern.loading.worked import Worked
from fitting.pattern.showing.alteration import alteration_sheet
from fitting.pattern.showing.altered_pieces import PlannedLevel
from fitting.pattern.showing.fullness import pleats_sheet
from fitting.pattern.showing.seams import seams_sheet
from fitting.site.demo.told import Told

LAID_FOR_S = 1  # whoever loads the demo waits
Row = Mapping[str, Any]


def load_pattern_work(told: Told, garments: Mapping[str, Garment]) -> None:
    """`garments` by `outfit/garment`, measured already."""
    rows = told.pattern_work()
    for row in rows["sheets"]:
        garment, at = garments[row["garment"]], told.noon(row["kept_on"])
        by = garment.outfit.maker
        worked = _RECKONED[row["kind"]](row["inputs"], known_of(garment, by=by, at=at))
        keep_work(garment, kind=row["kind"], inputs=row["inputs"], worked=worked, by=by, at=at)
    for row in rows["lays"]:
        _lay(told, garments[row["garment"]], row)


def _mm(text: str) -> float:
    return float(parse_length(text, signed=True))


def _alteration(inputs: Mapping[str, str], known: Known) -> Worked:
    lines = [name.removeprefix("change ") for name in inputs if name.startswith("change ")]
    levels = [
        PlannedLevel(
            change=LevelChange(
                level=line,
                height_mm=_mm(inputs[f"height {line}"]),
                change_mm=_mm(inputs[f"change {line}"]),
            ),
            u_mm=_mm(inputs[f"doubt {line}"]),
        )
        for line in lines
    ]
    numbers = [name.removeprefix("seam ") for name in inputs if name.startswith("seam ")]
    seams = [
        AlterableSeam(
            name=inputs[f"seam {number}"],
            pieces=tuple(inputs[f"pieces {number}"].split(", ")),
            times=int(inputs[f"times {number}"]),
            most_each_mm=_mm(inputs["most_each"]),
        )
        for number in numbers
    ]
    return alteration_sheet(
        levels, seams, usual_mm=_mm(inputs["usual"]), widths_mm=known.widths_mm, shapes=known.shapes
    )


def _pleats(inputs: Mapping[str, str], known: Known) -> Worked:
    row = KnownPleats(**{name: _mm(text) for name, text in inputs.items() if name != "pleat"})
    return pleats_sheet(Pleat(inputs["pleat"]), row)


def _seams(inputs: Mapping[str, str], known: Known) -> Worked:
    """With the ease that the plate has."""
    traced, how = known.traced, inputs["pieces"]
    if traced is None:
        raise ValueError(f"Nothing of {known.garment} is traced.")
    allowed = traced.allowed_by_plate()
    return seams_sheet(
        list(zip(traced.walked(how, allowed), allowed, strict=True)), shapes=traced.shapes[how]
    )


_RECKONED = {"alteration": _alteration, "pleats": _pleats, "seams": _seams}


def _lay(told: Told, garment: Garment, row: Row) -> None:
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
    pieces, form = pieces_to_lay(plate, row.get("drawn_as", row["cloth"])), row["form"]
    cloth = {name: form[name] for name in ("selvedge", "direction", "unit")}
    cloth["shrinkage"] = {"length": float(form["shrinks_length"]) / 100}
    asked = asked_of(
        [_asked(piece) for piece in pieces],
        Cutting(
            allowance=form["allowance"],
            by_edge={name[5:]: _mm(text) for name, text in form.items() if name.startswith("edge ")},
            is_folded=form.get("folded") == FOLDED,
        ),
        cloths=[{**cloth, "width": text} for name, text in form.items() if name.startswith("width_")],
        seconds=LAID_FOR_S,
    )
    lay = Lay.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        cloth=row["cloth"],
        inputs={"form": form, "graded": [], **asked},
        state=Lay.State.DONE,
        progress=100,
        made_by=garment.outfit.maker,
        asked_at=told.noon(row["asked_on"]),
    )
    lay_widths(lay)


def _asked(piece: PieceToLay) -> PieceAsked:
    box_mm = None if piece.is_traced else (piece.width_mm, piece.length_mm)
    return PieceAsked(piece=piece, copies=piece.cut, box_mm=box_mm)
