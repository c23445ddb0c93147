"""All that is held about one person: theirs to see, to take away as JSON, and to have erased."""

from datetime import datetime
from typing import Any

from fitting.bench.loading.wearer_made import made_for
from fitting.comparing.models import Comparison
from fitting.dossier.models import Dossier
from fitting.wearers.loading import taken_of
from fitting.wearers.models import Measures, Wearer

FORMAT = "plate-and-toile wearer"
VERSION = 1


def wearer_record(wearer: Wearer, *, at: datetime) -> dict[str, Any]:
    """Return every figure as typed and in millimetres; comparisons with what went in and came out."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "exported_at": at.isoformat(),
        "name": wearer.name,
        "measured_for": wearer.dress,
        "new_to_lacing": wearer.is_new_to_lacing,
        "notes": wearer.notes,
        "measures": [_set(one) for one in wearer.measures.for_comparison()],
        "outfits": [
            {"name": outfit.name, "garments": [garment.name for garment in outfit.garments.all()]}
            for outfit in wearer.outfits.prefetch_related("garments")
        ],
        "comparisons": [_comparison(one) for one in wearer.comparisons.select_related("garment__outfit")],
        "dossiers": [
            {
                "outfit": one.outfit.name,
                "asked_at": one.asked_at.isoformat(),
                "pages": one.pages,
                "printed_from": one.snapshot,
            }
            for one in Dossier.objects.showing(wearer)
        ],
        **made_for(wearer),
    }


def _set(measures: Measures) -> dict[str, Any]:
    lengths = {name: getattr(measures, name) for name in ("gap_top", "gap_waist", "gap_bottom", "heel")}
    return {
        "taken_on": measures.taken_on.isoformat(),
        "state": measures.state,
        "underneath": measures.state_note,
        "worn": [garment.name for garment in measures.worn.all()],
        **{name: length.text for name, length in lengths.items() if length and length.text},
        "laced_by": measures.laced_by,
        "measured_by": measures.measured_by,
        "sent_in": measures.is_sent_in,
        "still_good_on": measures.still_good_on and measures.still_good_on.isoformat(),
        "notes": measures.notes,
        "takes": [
            {"line": one.line, "side": one.side, "as_typed": one.value.text, "mm": one.value.um / 1000}
            for one in measures.takes.all()
        ],
        "come_to": {
            key: {"mm": taken.measure.mm, "doubt_mm": taken.measure.doubt_mm}
            for key, taken in taken_of(measures).items()
        },
    }


def _comparison(comparison: Comparison) -> dict[str, Any]:
    return {
        "garment": comparison.garment.name,
        "outfit": comparison.garment.outfit.name,
        "made_at": comparison.made_at.isoformat(),
        "rule_version": comparison.rule_version,
        "inputs": comparison.inputs,
        "results": comparison.results,
    }
