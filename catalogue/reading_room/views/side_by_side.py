"""Two to four garments side by side: what is known of them, what they measure, how they are cut."""

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.findings import Finding
from catalogue.plates.loading import cloths_of, plate_findings
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.reading_room.calculation.side_by_side import (
    PROPORTIONS,
    ROLES,
    Quantity,
    are_apart,
    measures_of,
    proportions_of,
    role_of,
)
from catalogue.reading_room.forms import LaidForm, UprightForm
from catalogue.reading_room.loading import overlay_of
from catalogue.reading_room.showing.overlay import draw_laid, draw_look, laid_drawing
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.guard import key_of, workroom_for_look

MOST = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentColumn:
    """One garment, by the plate of it that was read at most lines, in that plate's first cloth."""

    reference: ReferenceGarment
    plate: Plate | None
    cloth: str
    found: dict[str, Finding]

    @property
    def allowance_is_open(self) -> bool:
        return any(finding.if_included for finding in self.found.values())

    def pieces(self, role: str) -> list[Piece]:
        pieces = self.plate.pieces.all() if self.plate else ()
        return [piece for piece in pieces if piece.cloth == self.cloth and role_of(piece.name) == role]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """One line of the table, a cell for each garment. `is_apart`: they differ by more than their doubt."""

    label: str
    cells: list[Any]
    is_apart: bool = False
    kind: str = ""


def side_by_side(request: HttpRequest) -> HttpResponse:
    workroom = workroom_for_look(request)
    keys = list(dict.fromkeys(key for key in map(key_of, request.GET.getlist("garment")) if key))
    if len(keys) > MOST:
        messages.warning(request, f"Up to {MOST} garments lie side by side: these are the first {MOST}.")
    mine = ReferenceGarment.objects.of_workroom(workroom).for_detail_page()
    rows = mine.in_bulk(keys[:MOST])
    sides = [_side(rows[key]) for key in keys[:MOST] if key in rows]
    shown = {"sides": sides, "most": MOST}
    if len(sides) > 1:
        shown |= {
            "girths": _measured(sides, "girth"),
            "lengths": _measured(sides, "length"),
            "proportions": _proportions(sides),
            "roles": _roles(sides),
            **_outlines(request, [side.reference for side in sides]),
        }
    return render(request, "reading_room/side_by_side.html", shown)


def _outlines(request: HttpRequest, references: list[ReferenceGarment]) -> dict[str, Any]:
    overlay = overlay_of(references, request.GET.dict())
    if not overlay.pairs:
        return {"overlay": overlay}
    laid = laid_drawing(overlay, request.user.system)
    return {
        "overlay": overlay,
        "drawing": draw_laid(overlay, laid, request.user),
        "is_tall": laid.is_tall,
        "looks": [(one, draw_look(one.letter)) for one in overlay.pieces],
        "laid_forms": [LaidForm(one) for one in overlay.pieces],
        "upright_form": UprightForm(overlay),
    }


def _side(reference: ReferenceGarment) -> GarmentColumn:
    best, cloth, found = None, "", {}
    for plate in reference.plates.all():
        here = plate_findings(plate)
        first = next(iter(cloths_of(plate)), "")
        by_line = here[first].by_line if first else {}
        if best is None or len(by_line) > len(found):
            best, cloth, found = plate, first, by_line
    return GarmentColumn(reference=reference, plate=best, cloth=cloth, found=found)


def _measured(sides: list[GarmentColumn], kind: str) -> list[LineRow]:
    return [
        _row(line.label, [measures_of(side.found[key]) if key in side.found else () for side in sides])
        for key, line in LINES.items()
        if line.kind == kind and any(key in side.found for side in sides)
    ]


def _proportions(sides: list[GarmentColumn]) -> list[LineRow]:
    rows = (
        _row(one.label, [proportions_of(one, side.found) for side in sides], kind=one.kind)
        for one in PROPORTIONS
    )
    return [row for row in rows if any(row.cells)]


def _row(label: str, cells: list[tuple[Quantity, ...]], kind: str = "") -> LineRow:
    return LineRow(label=label.capitalize(), cells=cells, is_apart=are_apart(cells), kind=kind)


def _roles(sides: list[GarmentColumn]) -> list[LineRow]:
    rows = (LineRow(label=role.capitalize(), cells=[side.pieces(role) for side in sides]) for role in ROLES)
    return [row for row in rows if any(row.cells)]
