"""Makers of kept pattern work and lays for tests."""

from fitting.models import Garment, Lay, WorkNote
from tests.makers import NOON


def make_work_note(garment: Garment, **given) -> WorkNote:
    """A kept sheet of pleats; what is in it was not reckoned."""
    results = {"figures": {}, "lines": [], "grids": [], "flags": [], "drawings": []}
    return WorkNote.objects.create(
        **{
            "garment": garment,
            "wearer": garment.outfit.wearer,
            "kind": WorkNote.Kind.PLEATS,
            "inputs": {"pleat": "knife"},
            "results": results,
            "made_at": NOON,
            **given,
        }
    )


def make_lay(garment: Garment, **given) -> Lay:
    """A lay that is done and found nothing."""
    inputs = {"form": {}, "orders": [], "boxes": [], "graded": []}
    return Lay.objects.create(
        **{
            "garment": garment,
            "wearer": garment.outfit.wearer,
            "inputs": inputs,
            "state": Lay.State.DONE,
            "asked_at": NOON,
            **given,
        }
    )
