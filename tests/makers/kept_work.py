"""Makers of pattern work for tests: a bodice to work on, kept sheets, lays, a working pattern."""

from typing import Any

from catalogue.lengths.calculation.lengths import parse_length
from catalogue.plates.models.piece import Seam
from catalogue.workroom.models import User
from catalogue.workroom.reader.codec import to_json
from fitting.laying.calculation.cloth import Cloth
from fitting.laying.loading.orders import LayRequest
from fitting.laying.models import Lay
from fitting.outfits.models.garment import Garment
from fitting.pattern.actions import begin_pattern
from fitting.pattern.loading.start import plates_of
from fitting.pattern.models import WorkingVersion, WorkNote
from tests.makers.long_work import make_work
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_wearer,
    um,
)


def make_work_note(garment: Garment, **given) -> WorkNote:
    """A kept sheet of pleats; what is in it was not reckoned."""
    results = {"figures": {}, "lines": [], "grids": [], "flags": [], "drawings": []}
    return WorkNote.objects.create(
        **{
            "garment": garment,
            "wearer": garment.outfit.wearer,
            "kind": "pleats",
            "inputs": {"pleat": "knife"},
            "results": results,
            "made_at": NOON,
            **given,
        }
    )


def make_request(*widths: str) -> LayRequest:
    """For a lay of no pieces on cloths so wide."""
    cloths = tuple(Cloth(width_mm=float(parse_length(width))) for width in widths)
    return LayRequest(cloths=cloths, widths=widths, pieces=(), seconds=1.0, unit="1/8 yd")


def make_lay(garment: Garment, work: dict[str, Any] | None = None, **given) -> Lay:
    """A lay that is done and found nothing."""
    inputs = to_json(make_request())
    row = {"garment": garment, "wearer": garment.outfit.wearer, "inputs": inputs, "asked_at": NOON, **given}
    lay = Lay.objects.create(**row)
    make_work(lay, **(work or {}))
    return lay


def make_pattern_version(garment: Garment, *, by: User) -> WorkingVersion:
    """The first version of a working pattern, begun from the garment's own plate."""
    return begin_pattern(garment, plates_of(garment)[:1], on=None, by=by, at=NOON)


def make_seamed_bodice(workroom) -> Garment:
    """A bodice to be fitted, with a side seam of which both edges were read."""
    plate = make_bodice_plate(workroom)
    front, back = plate.pieces.all()
    lengths = {
        "length_a_um": um("1 in"),
        "length_a_text": "1 in",
        "length_b_um": um("7/8 in"),
        "length_b_text": "7/8 in",
    }
    Seam.objects.create(
        plate=plate, piece_a=front, edge_a="side seam", piece_b=back, edge_b="side seam", **lengths
    )
    wearer = make_wearer(workroom)
    measures = make_measures(wearer, {"waist": "25 in", "bust": "33 in"})
    return make_garment(make_outfit(workroom, wearer=wearer), plate=plate, measures=measures)
