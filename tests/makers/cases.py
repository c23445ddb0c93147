"""Cases for tests of the calculation: the smallest true one, in inches, and what the test cares about."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from catalogue.plates.calculation.readings import DrawnPiece, PageReading, PlateReadings
from catalogue.plates.calculation.scale import Scale
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.routes import SkillLevel
from fitting.wearers.calculation.body import Body, BodyMeasure

INCH_MM = 25.4
ALL_SKILLS = dict.fromkeys(("alter", "grade", "drape", "combine", "draft"), SkillLevel.WORKING)
WORKED = Path(__file__).resolve().parents[2] / "fixtures" / "cases"


def inches(value: float) -> float:
    """Millimetres, as exact as typed ones."""
    return round(value * INCH_MM, 9)


def make_reading(length_in: float, take_up_in: float = 0.0) -> PageReading:
    return PageReading(length_mm=inches(length_in), take_up_mm=inches(take_up_in))


def make_piece(name: str = "half", /, **levels_in: float) -> DrawnPiece:
    """A piece cut twice, with its readings by level in inches on the page."""
    return DrawnPiece(
        name=name, readings={level: make_reading(length) for level, length in levels_in.items()}
    )


def make_plate(*pieces: DrawnPiece, **given: Any) -> PlateReadings:
    """A plate at 1:8 without allowance; one piece, with a waist of 24 in, unless given."""
    return PlateReadings(**{"scale": Scale.of(8), "pieces": pieces or (make_piece(waist=1.5),), **given})


def make_case(plate: PlateReadings | None = None, *, doubt_in: float = 3 / 8, **given: Any) -> Case:
    """A plate against a body of `waist_in=24` and so on; other keywords are fields of the case."""
    girths_in = {key[:-3]: given.pop(key) for key in list(given) if key.endswith("_in")} or {"waist": 24}
    girths = {
        level: BodyMeasure(mm=inches(girth), doubt_mm=inches(doubt_in)) for level, girth in girths_in.items()
    }
    return Case(**{"plate": plate or make_plate(), "body": Body(girths=girths), **given})


def off_by(*differences_in: float, **given: Any) -> Case:
    """A case without doubt worth the name, whose levels are off by these inches: waist, bust, hip in turn."""
    levels = ("waist", "bust", "hip")[: len(differences_in)]
    piece = make_piece("half", **dict.fromkeys(levels, 2.0))  # 32 in round
    plate = replace(make_plate(piece, scale=Scale.of(8, relative_doubt=0.0)), rule_division_mm=0.001)
    bodies = {
        f"{level}_in": 32 - difference for level, difference in zip(levels, differences_in, strict=True)
    }
    return make_case(replace(plate, drawing_doubt_mm=0.0), doubt_in=0.01, **bodies, **given)


# What the boxes of the quick comparison's example hold, as `assess` reads it.
QUICK_EXAMPLE = {
    "scale": {"ratio": "1:8"},
    "rule_division": "1/32 in",
    "pieces": [
        {
            "name": "front",
            "readings": {"bust": "1 1/16 in", "waist": "13/16 in"},
            "take_up": {"waist": "1/16 in"},
        },
        {"name": "side back", "readings": {"bust": "1/2 in", "waist": "3/8 in"}},
        {"name": "back", "readings": {"bust": "13/32 in", "waist": "3/8 in"}},
    ],
    "fastening": {"lacing_gap": {"bust": "1 in", "waist": "1/2 in"}},
    "lengths": {"nape to waist": {"reading": "1 7/8 in"}},
    "measures": {
        "state": "over stays",
        "girths": {"bust": "33 1/2 in", "waist": "25 in"},
        "lengths": {"nape to waist": "15 in"},
    },
    "ease": {"bust": "1/2 in"},
}


def kept_answer(**levels: dict[str, Any]) -> dict[str, Any]:
    """The results of a comparison with these figures of each level, and nothing otherwise."""
    figures = ("garment_mm", "body_mm", "ease_mm", "wanted_mm")
    nothing = {**dict.fromkeys(figures, 0.0), **dict.fromkeys(("difference_mm", "u_mm", "chances"))}
    nothing |= {"verdict": "gathered", "ratio": 1.0, "largest_doubt": None, "sum": ""}
    return {
        "levels": {line: nothing | given for line, given in levels.items()},
        "lengths": {},
        **dict.fromkeys(("plain_enlargement", "recommended", "next_step")),
        "routes": [],
    }
